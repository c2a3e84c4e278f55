//! Expressions that remember their names: a value, and the formula that it follows from.

use super::figure::{Figure, Line, Source, Working, WrittenLine, add_lines};
use super::{Label, Names};
use crate::measure::{Measured, Quantity};
use std::ops::{Add, Div, Mul, Sub};
use std::sync::Arc;

/// One step of a hand calculation: what was worked out, by which formula, and what it came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    name: Label,
    /// Nothing where the step only states a number that goes in.
    formula: Option<Arc<Node>>,
    result: Quantity,
    source: Source,
}

/// A part of a formula.
#[derive(Clone, Debug)]
pub(super) enum Node {
    /// A number that goes in, by its name.
    Named(Label, Quantity),
    /// A number of the formula itself: the 2 of "2 × board".
    Constant(f64),
    /// Two parts and what joins them.
    Joined(Join, Arc<Node>, Arc<Node>),
    /// A rule that is told in words, with `{}` for each of its parts: "the larger of {} and {}".
    Rule(&'static str, fn(&[f64]) -> f64, Vec<Arc<Node>>),
    /// What a search or a geometry found, in words with `{}` for each of the numbers that it started from. No formula
    /// says it again.
    Found(&'static str, Vec<Arc<Node>>),
    /// Several numbers side by side: "2 × piece".
    List(Vec<Arc<Node>>),
    /// A list that is added up, one after the other; nothing for an empty one.
    Sum(Vec<Arc<Node>>),
    /// A formula whose outcome is rounded as floats do not round it, in words with `{}` for it: what comes out may lie
    /// so far from what it comes to.
    Rounded(&'static str, f64, Arc<Node>),
}

impl PartialEq for Node {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Named(one, value), Self::Named(other, found)) => one == other && value == found,
            (Self::Constant(one), Self::Constant(other)) => one == other,
            (Self::Joined(join, one, two), Self::Joined(other, first, second)) => {
                join == other && one == first && two == second
            }
            // The words of a rule say which it is.
            (Self::Rule(one, _, parts), Self::Rule(other, _, found)) => one == other && parts == found,
            (Self::Found(one, parts), Self::Found(other, found)) => one == other && parts == found,
            (Self::List(parts), Self::List(found)) | (Self::Sum(parts), Self::Sum(found)) => parts == found,
            (Self::Rounded(one, within, part), Self::Rounded(other, as_far, found)) => {
                one == other && within == as_far && part == found
            }
            _ => false,
        }
    }
}

/// What joins two parts of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Join {
    Plus,
    Minus,
    Times,
    Over,
}

impl Join {
    fn sign(self) -> &'static str {
        match self {
            Self::Plus => " + ",
            Self::Minus => " − ",
            Self::Times => " × ",
            Self::Over => " ÷ ",
        }
    }

    fn is_sum(self) -> bool {
        matches!(self, Self::Plus | Self::Minus)
    }

    fn apply(self, one: f64, other: f64) -> f64 {
        match self {
            Self::Plus => one + other,
            Self::Minus => one - other,
            Self::Times => one * other,
            Self::Over => one / other,
        }
    }

    /// A part beside this sign needs brackets; `right` of it more often than left.
    fn brackets(self, part: &Node, right: bool) -> bool {
        let is_sum = match part {
            Node::Joined(inner, ..) => inner.is_sum(),
            Node::Sum(parts) => parts.len() > 1,
            _ => return false,
        };
        match self {
            Self::Plus => false,
            Self::Minus => right && is_sum,
            Self::Times => is_sum,
            Self::Over => is_sum || (right && matches!(part, Node::Joined(..))),
        }
    }
}

impl Node {
    /// What the formula comes to, worked out from the numbers that go in, in SI units; nothing where one of them is
    /// words.
    fn evaluate(&self) -> Option<f64> {
        match self {
            Self::Named(_, quantity) => quantity.si(),
            Self::Constant(value) => Some(*value),
            Self::Joined(join, one, other) => Some(join.apply(one.evaluate()?, other.evaluate()?)),
            Self::Rule(_, apply, parts) => {
                // A list goes in with all of its numbers.
                let numbers = parts.iter().flat_map(|part| match part.as_ref() {
                    Self::List(parts) => parts.as_slice(),
                    _ => std::slice::from_ref(part),
                });
                let numbers: Option<Vec<_>> = numbers.map(|part| part.evaluate()).collect();
                Some(apply(&numbers?))
            }
            Self::Rounded(_, _, part) => part.evaluate(),
            Self::Sum(parts) => {
                let mut parts = parts.iter().map(|part| part.evaluate());
                let first = parts.next().unwrap_or(Some(0.0))?;
                parts.try_fold(first, |sum, part| Some(sum + part?))
            }
            Self::Found(..) | Self::List(_) => None,
        }
    }

    /// The largest number that a sum in it goes through: what is left of large numbers may miss by their last bits.
    fn goes_through(&self) -> f64 {
        let found = self.evaluate().map_or(0.0, f64::abs);
        match self {
            Self::Joined(Join::Plus | Join::Minus, one, other) => one.goes_through().max(other.goes_through()),
            Self::Joined(Join::Times, one, other) => one.goes_through() * other.goes_through(),
            Self::Joined(Join::Over, one, other) => {
                one.goes_through() / other.evaluate().map_or(f64::INFINITY, f64::abs)
            }
            Self::Rule("{}", _, parts) | Self::Sum(parts) => {
                parts.iter().map(|part| part.goes_through()).fold(found, f64::max)
            }
            Self::Rounded(_, _, part) => part.goes_through(),
            Self::Named(..) | Self::Constant(_) | Self::Rule(..) | Self::Found(..) | Self::List(_) => found,
        }
    }

    /// How far what comes out of it may lie from what it comes to, as it is rounded.
    fn rounding(&self) -> f64 {
        if let Self::Rounded(_, within, _) = self { *within } else { 0.0 }
    }

    /// The formula with a text for every name: the name itself, or its number.
    fn write(&self, text: &impl Fn(&Label, &Quantity) -> String) -> String {
        match self {
            Self::Named(label, quantity) => text(label, quantity),
            Self::Constant(value) => crate::measure::write_number(*value, 6),
            Self::Joined(join, one, other) => {
                let part = |part: &Self, right| {
                    let written = part.write(text);
                    if join.brackets(part, right) { format!("({written})") } else { written }
                };
                part(one, false) + join.sign() + &part(other, true)
            }
            Self::Rounded(says, _, part) => says.replacen("{}", &part.write(text), 1),
            Self::Sum(parts) if parts.is_empty() => "nothing".to_owned(),
            Self::Sum(parts) => parts.iter().map(|part| part.write(text)).collect::<Vec<_>>().join(" + "),
            Self::List(parts) => {
                let written: Vec<_> = parts.iter().map(|part| part.write(text)).collect();
                let alike = written.chunk_by(|one, other| one == other);
                let told = alike.filter_map(|alike| {
                    let one = alike.first()?;
                    Some(if alike.len() > 1 { format!("{} × {one}", alike.len()) } else { one.clone() })
                });
                told.collect::<Vec<_>>().join(", ")
            }
            Self::Rule(says, _, parts) | Self::Found(says, parts) => {
                let mut words = says.split("{}");
                let mut written = words.next().unwrap_or_default().to_owned();
                let alone = *says == "{}";
                for (part, word) in parts.iter().zip(words) {
                    let text = part.write(text);
                    let joined = matches!(part.as_ref(), Self::Joined(..) | Self::Sum(_)) && !alone && parts.len() > 1;
                    written += &if joined { format!("({text})") } else { text };
                    written += word;
                }
                written
            }
        }
    }
}

impl Step {
    /// What its formula comes to, worked out anew from the numbers that go in, in SI units; nothing where it has no
    /// formula or no number.
    pub fn evaluate(&self) -> Option<f64> {
        self.formula.as_ref()?.evaluate()
    }

    /// What it came to, in SI units; nothing where that is words.
    pub fn value(&self) -> Option<f64> {
        self.result.si()
    }

    pub(super) fn write(&self, to: &dyn Names, last: bool) -> WrittenLine {
        let units = to.units();
        let name = self.name.write(to);
        let result = self.result.result(units);
        let Some(node) = &self.formula else {
            return WrittenLine { formula: name, numbers: String::new(), result, source: self.source };
        };
        let formula = node.write(&|label, _| label.write(to));
        let formula = if last { formula } else { format!("{} = {formula}", capital(&name)) };
        let numbers = node.write(&|_, quantity| quantity.write(units).text);
        WrittenLine { formula, numbers, result, source: self.source }
    }
}

/// The name as it begins a line.
fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A value in the middle of a calculation: what it is, and the formula so far.
#[derive(Clone, Debug)]
pub struct Term<Q> {
    /// The value.
    pub value: Q,
    part: Part,
}

/// The formula of a term of any kind, and the lines of what goes in, each once. All work on formulas is done here and
/// not in [`Term`], of which the compiler makes one for every quantity.
#[derive(Clone, Debug)]
pub struct Part {
    node: Arc<Node>,
    before: Vec<Line>,
}

/// What can go into a calculation by name.
pub trait Named: Measured {
    /// The value under a name: "finished thickness".
    fn named(self, name: impl Into<Label>) -> Term<Self> {
        Term::named_as(self, name, self.quantity())
    }

    /// The value under a name, on a line of its own that says where it comes from.
    fn stated(self, name: impl Into<Label>, source: Source) -> Term<Self> {
        Term::stated_as(self, name, self.quantity(), source)
    }
}

impl<Q: Measured> Named for Q {}

impl Part {
    /// Several numbers that are told side by side, equal neighbours as "2 × piece".
    pub fn list<Q>(terms: impl IntoIterator<Item = Term<Q>>) -> Self {
        Self::of_all(terms.into_iter().map(|term| term.part).collect(), Node::List)
    }

    fn named(name: Label, quantity: Quantity, before: Vec<Line>) -> Self {
        Self { node: Arc::new(Node::Named(name, quantity)), before }
    }

    fn stated(name: &Label, quantity: Quantity, source: Source) -> Self {
        let step = Step { name: name.clone(), formula: None, result: quantity.clone(), source };
        Self::named(name.in_sentence(), quantity, vec![Line(Arc::new(step))])
    }

    fn constant(value: f64) -> Self {
        Self { node: Arc::new(Node::Constant(value)), before: Vec::new() }
    }

    fn joined(self, join: Join, other: Self) -> Self {
        let node = Arc::new(Node::Joined(join, self.node, other.node));
        Self { node, before: self.before }.with_lines(&other.before)
    }

    fn of_all(parts: Vec<Self>, node: impl FnOnce(Vec<Arc<Node>>) -> Node) -> Self {
        let (mut nodes, mut lines) = (Vec::with_capacity(parts.len()), Vec::new());
        for part in parts {
            nodes.push(part.node);
            lines.extend(part.before);
        }
        Self { node: Arc::new(node(nodes)), before: Vec::new() }.with_lines(&lines)
    }

    fn with_lines(mut self, lines: &[Line]) -> Self {
        add_lines(&mut self.before, lines);
        self
    }

    fn after_first(mut self, other: &Working) -> Self {
        let own = std::mem::replace(&mut self.before, other.raw_lines().to_vec());
        self.with_lines(&own)
    }

    fn step(self, name: &Label, quantity: Quantity, source: Source) -> Self {
        let lines = self.ended(name.clone(), quantity.clone(), source);
        Self::named(name.in_sentence(), quantity, lines)
    }

    /// The lines, with a last one for what the formula comes to.
    fn ended(self, name: Label, result: Quantity, source: Source) -> Vec<Line> {
        let step = Step { name, formula: Some(self.node), result, source };
        step.check();
        let mut lines = self.before;
        lines.push(Line(Arc::new(step)));
        lines
    }

    fn titled(self, title: Label, quantity: Quantity, source: Source) -> Working {
        Working::of_lines(title.clone(), self.ended(title, quantity, source))
    }
}

impl<Q> From<Term<Q>> for Part {
    fn from(term: Term<Q>) -> Self {
        term.part
    }
}

impl<Q> Term<Q> {
    /// A value under a name, written in a way of its own: `Term::named_as(water, "water", Quantity::Water(water))`.
    pub fn named_as(value: Q, name: impl Into<Label>, quantity: Quantity) -> Self {
        Self { value, part: Part::named(name.into(), quantity, Vec::new()) }
    }

    /// The same on a line of its own that says where the value comes from.
    pub fn stated_as(value: Q, name: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        Self { value, part: Part::stated(&name.into(), quantity, source) }
    }

    /// The whole formula as a rule in words about it: "{}, rounded up to whole bags". `apply` takes the value in SI
    /// units.
    pub fn by_rule<P>(self, says: &'static str, apply: fn(&[f64]) -> f64, value: P) -> Term<P> {
        Term::rule(says, [self.part], apply, value)
    }

    /// A rule in words about this and another number: "the larger of {} and {}".
    pub fn with_rule<B, P>(self, other: Term<B>, says: &'static str, apply: fn(&[f64]) -> f64, value: P) -> Term<P> {
        Term::rule(says, [self.part, other.part], apply, value)
    }

    /// A rule in words about several numbers: "{} × {}³ ÷ 12". `apply` takes them in SI units, in that order.
    pub fn rule(says: &'static str, parts: impl IntoIterator<Item = Part>, apply: fn(&[f64]) -> f64, value: Q) -> Self {
        Self { value, part: Part::of_all(parts.into_iter().collect(), |nodes| Node::Rule(says, apply, nodes)) }
    }

    /// What a search or a geometry found from several numbers, in words: "{}, cut so that the fewest are needed". No
    /// formula comes to it, so that it is not worked out a second time.
    pub fn found(says: &'static str, parts: impl IntoIterator<Item = Part>, value: Q) -> Self {
        Self { value, part: Part::of_all(parts.into_iter().collect(), |nodes| Node::Found(says, nodes)) }
    }

    /// A list added up in its order: "gap 1 + gap 2 + gap 3"; nothing for an empty one. The list may be long.
    ///
    /// ```
    /// use pourwright::measure::{Units, exact::inches};
    /// use pourwright::working::{Named, Source, Term};
    ///
    /// let rails = [("front rail", 60.0), ("back rail", 58.5)].map(|(name, long)| inches(long).named(name));
    /// let all = Term::sum(rails).titled("Rails", Source::Arithmetic);
    /// assert_eq!(all.working.lines(Units::Inch)[0].numbers, "60 in + 58 1/2 in");
    /// assert_eq!(all.value, inches(118.5));
    /// ```
    pub fn sum(terms: impl IntoIterator<Item = Self>) -> Self
    where
        Q: Default + Add<Output = Q>,
    {
        let (values, parts): (Vec<Q>, Vec<Part>) = terms.into_iter().map(|term| (term.value, term.part)).unzip();
        let value = values.into_iter().reduce(|sum, value| sum + value).unwrap_or_default();
        Self { value, part: Part::of_all(parts, Node::Sum) }
    }

    /// The same with the lines of another working before it.
    pub fn after(self, other: &Working) -> Self {
        Self { value: self.value, part: self.part.with_lines(other.raw_lines()) }
    }

    /// The same with the lines of another working before all of its own.
    pub fn after_first(self, other: &Working) -> Self {
        Self { value: self.value, part: self.part.after_first(other) }
    }

    /// The same with the lines of another number before it, which it follows from in another way than by a formula.
    pub fn with_lines_of<B>(self, other: &Term<B>) -> Self {
        Self { value: self.value, part: self.part.with_lines(&other.part.before) }
    }

    /// The value goes on under that name alone, written in a way of its own; the lines before it stay.
    pub fn called_as(self, name: impl Into<Label>, quantity: Quantity) -> Self {
        Self { value: self.value, part: Part::named(name.into(), quantity, self.part.before) }
    }

    /// A line of its own for what the formula comes to so far; it goes on under its name.
    pub fn step_as(self, name: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        Self { value: self.value, part: self.part.step(&name.into(), quantity, source) }
    }

    /// The end of a calculation, in a way of writing of its own.
    pub fn titled_as(self, title: impl Into<Label>, quantity: Quantity, source: Source) -> Figure<Q> {
        Figure { value: self.value, working: self.part.titled(title.into(), quantity, source) }
    }

    /// What is concluded from the number: "3 people and a cart".
    pub fn concluded<T>(self, value: T, title: impl Into<Label>, quantity: Quantity, source: Source) -> Figure<T> {
        Figure { value, working: self.part.titled(title.into(), quantity, source) }
    }

    /// A figure that ends in the line on which the number was stated, or in its last step.
    pub fn ended(self, title: impl Into<Label>) -> Figure<Q> {
        Figure { value: self.value, working: Working::of_lines(title.into(), self.part.before) }
    }

    /// The formula rounded as floats do not round it: money in decimals, an area in the coordinates of a plan. `value`
    /// lies at most `within` from what the formula comes to, both in SI units or in the currency. `says` tells of it,
    /// with `{}` for the formula. It ends a line: the calculation goes on with [`Term::step`] or ends in
    /// [`Term::titled`].
    pub fn rounded<P>(self, says: &'static str, within: f64, value: P) -> Term<P> {
        let Part { node, before } = self.part;
        Term { value, part: Part { node: Arc::new(Node::Rounded(says, within, node)), before } }
    }

    /// The formula with the numbers in it, written to somebody: "2 packs × $24.00".
    pub fn numbers(&self, to: impl Names) -> String {
        self.part.node.write(&|_, quantity| quantity.write(to.units()).text)
    }

    /// The same formula for a value that was worked out in another order of the same steps, or that is a quantity of
    /// another kind: a force times its arm is a moment.
    pub fn valued<P>(self, value: P) -> Term<P> {
        self.by_rule("{}", |parts| parts[0], value)
    }
}

impl<Q: Measured> Term<Q> {
    /// The value goes on under that name alone; the lines before it stay.
    pub fn called(self, name: impl Into<Label>) -> Self {
        let quantity = self.value.quantity();
        self.called_as(name, quantity)
    }

    /// A line of its own for what the formula comes to so far; it goes on under its name.
    pub fn step(self, name: impl Into<Label>, source: Source) -> Self {
        let quantity = self.value.quantity();
        self.step_as(name, quantity, source)
    }

    /// The end of a calculation: a figure with that title.
    pub fn titled(self, title: impl Into<Label>, source: Source) -> Figure<Q> {
        let quantity = self.value.quantity();
        self.titled_as(title, quantity, source)
    }
}

impl Step {
    /// A formula that does not come to its value is a mistake of the program, found by any test that meets it.
    fn check(&self) {
        if cfg!(debug_assertions)
            && let (Some(found), Some(value)) = (self.evaluate(), self.value())
        {
            let through = self.formula.as_ref().map_or(0.0, |formula| formula.goes_through());
            let rounding = self.formula.as_ref().map_or(0.0, |formula| formula.rounding());
            let within = rounding + 1e-12 * value.abs().max(through);
            let same = found == value || found.is_nan() || (found - value).abs() <= within;
            assert!(same, "{:?} is {value}, but its formula comes to {found}", self.name);
        }
    }
}

impl<T: Clone> Figure<T> {
    /// The figure in a formula, under its title, with its lines before the next one.
    pub fn term(&self) -> Term<T>
    where
        T: Measured,
    {
        self.term_as(self.value.quantity())
    }

    /// The figure in a formula, under another name.
    pub fn called(&self, name: impl Into<Label>) -> Term<T>
    where
        T: Measured,
    {
        let part = Part::named(name.into(), self.value.quantity(), self.working.raw_lines().to_vec());
        Term { value: self.value, part }
    }

    /// The figure in a formula, under its title, written in a way of its own.
    pub fn term_as(&self, quantity: Quantity) -> Term<T> {
        let name = self.working.title_label().in_sentence();
        Term { value: self.value.clone(), part: Part::named(name, quantity, self.working.raw_lines().to_vec()) }
    }

    /// The same number and lines under another title.
    pub fn retitled(&self, title: impl Into<Label>) -> Self {
        Self { value: self.value.clone(), working: self.working.retitled(title.into()) }
    }
}

impl<T> Figure<T> {
    /// The same figure, whose last line comes from elsewhere.
    pub fn from(self, source: Source) -> Self {
        Self { value: self.value, working: self.working.from(source) }
    }

    /// A figure that is not worked out: one line says what goes in, and where it comes from.
    pub fn stated_as(value: T, title: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        let title = title.into();
        let part = Part::stated(&title, quantity, source);
        Self { value, working: Working::of_lines(title, part.before) }
    }
}

impl Working {
    fn retitled(&self, title: Label) -> Self {
        Self::of_lines(title, self.raw_lines().to_vec())
    }

    fn from(self, source: Source) -> Self {
        let mut lines = self.raw_lines().to_vec();
        if let Some(Line(step)) = lines.last_mut() {
            *step = Arc::new(Step { source, ..step.as_ref().clone() });
        }
        Self::of_lines(self.title_label().clone(), lines)
    }
}

macro_rules! joined {
    ($($operator:ident, $method:ident, $join:ident;)*) => {
        $(
            impl<A: $operator<B>, B> $operator<Term<B>> for Term<A> {
                type Output = Term<A::Output>;

                fn $method(self, other: Term<B>) -> Term<A::Output> {
                    Term { value: self.value.$method(other.value), part: self.part.joined(Join::$join, other.part) }
                }
            }

            /// With a plain number of the formula itself.
            impl<A: $operator<f64>> $operator<f64> for Term<A> {
                type Output = Term<A::Output>;

                fn $method(self, other: f64) -> Term<A::Output> {
                    let part = self.part.joined(Join::$join, Part::constant(other));
                    Term { value: self.value.$method(other), part }
                }
            }

            impl<A> $operator<Term<A>> for f64
            where
                f64: $operator<A>,
            {
                type Output = Term<<f64 as $operator<A>>::Output>;

                fn $method(self, other: Term<A>) -> Self::Output {
                    let part = Part::constant(self).joined(Join::$join, other.part);
                    Term { value: self.$method(other.value), part }
                }
            }
        )*
    };
}
joined! {
    Add, add, Plus;
    Sub, sub, Minus;
    Mul, mul, Times;
    Div, div, Over;
}

impl Term<uom::si::f64::Ratio> {
    /// A ratio as the plain number that it is.
    pub fn number(self) -> Term<f64> {
        Term { value: self.value.value, part: self.part }
    }
}

impl Term<u32> {
    /// A count as a number that quantities are multiplied by.
    pub fn number(self) -> Term<f64> {
        Term { value: f64::from(self.value), part: self.part }
    }
}

/// A quarter of π: the share of a square that the circle in it takes.
pub fn quarter_pi() -> Term<f64> {
    let quarter = std::f64::consts::FRAC_PI_4;
    Term::named_as(quarter, "π/4", Quantity::other(quarter, |_, _| "π/4".to_owned()))
}

/// The circumference of a circle over its diameter.
pub fn pi() -> Term<f64> {
    let pi = std::f64::consts::PI;
    Term::named_as(pi, "π", Quantity::other(pi, |_, _| "π".to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::{inches, pounds};
    use crate::measure::{Area, Length, Mass, Units};

    fn named(value: f64, name: &'static str) -> Term<f64> {
        value.named(name)
    }

    fn formula(term: Term<f64>) -> (String, String) {
        let lines = term.titled("All of it", Source::Arithmetic).working.lines(Units::Inch);
        let line = lines.last().expect("a title is a line");
        (line.formula.clone(), line.numbers.clone())
    }

    /// The rules of arithmetic: what is left out of brackets is what they do not change.
    #[test]
    fn brackets_stand_where_they_change_the_value() {
        let [a, b, c] = [(6.0, "a"), (3.0, "b"), (2.0, "c")].map(|(value, name)| named(value, name));
        let cases = [
            ((a.clone() + b.clone()) * c.clone(), "(a + b) × c", "(6 + 3) × 2"),
            (a.clone() + b.clone() * c.clone(), "a + b × c", "6 + 3 × 2"),
            (a.clone() - (b.clone() - c.clone()), "a − (b − c)", "6 − (3 − 2)"),
            (a.clone() - b.clone() - c.clone(), "a − b − c", "6 − 3 − 2"),
            (a.clone() + (b.clone() - c.clone()), "a + b − c", "6 + 3 − 2"),
            (a.clone() / (b.clone() * c.clone()), "a ÷ (b × c)", "6 ÷ (3 × 2)"),
            (a.clone() / (b.clone() / c.clone()), "a ÷ (b ÷ c)", "6 ÷ (3 ÷ 2)"),
            (a.clone() / b.clone() * c.clone(), "a ÷ b × c", "6 ÷ 3 × 2"),
            (a.clone() * (1.0 + b.clone()), "a × (1 + b)", "6 × (1 + 3)"),
            (2.0 * a.clone() / c.clone(), "2 × a ÷ c", "2 × 6 ÷ 2"),
        ];
        for (term, names, numbers) in cases {
            assert_eq!(formula(term), (names.to_owned(), numbers.to_owned()));
        }
    }

    #[test]
    fn a_rule_is_told_in_its_words() {
        let [a, b] = [(5.0, "a"), (2.0, "b")].map(|(value, name)| named(value, name));
        let up = (a.clone() / b.clone()).by_rule("{}, rounded up", |x| x[0].ceil(), 3.0);
        assert_eq!(formula(up), ("a ÷ b, rounded up".to_owned(), "5 ÷ 2, rounded up".to_owned()));
        let larger = a.with_rule(b, "the larger of {} and {}", |x| x[0].max(x[1]), 5.0);
        assert_eq!(formula(larger).1, "the larger of 5 and 2");
    }

    #[test]
    fn what_two_parts_share_is_told_once() {
        let side = (inches(10.0).named("one") + inches(2.0).named("other")).titled("Side", Source::Practice);
        let square: Figure<Area> = (side.term() * side.term()).titled("Square", Source::Arithmetic);
        let lines = square.working.lines(Units::Inch);
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert_eq!((lines[0].formula.as_str(), lines[0].source), ("Side = one + other", Source::Practice));
        assert_eq!((lines[1].formula.as_str(), lines[1].result.as_str()), ("side × side", "1 ft²"));
    }

    #[test]
    fn a_working_is_written_in_the_units_that_are_asked_for() {
        let mass: Figure<Mass> =
            (pounds(55.0).stated("one bag", Source::Typed) * 3.0).titled("Three bags", Source::Arithmetic);
        let [inch, metric] = [Units::Inch, Units::Metric].map(|units| mass.working.lines(units));
        assert_eq!((inch[0].formula.as_str(), inch[0].result.as_str()), ("one bag", "55 lb"));
        assert_eq!((inch[1].numbers.as_str(), inch[1].result.as_str()), ("55 lb × 3", "165 lb"));
        assert!(metric.iter().all(|line| line.result.ends_with(" kg")), "{metric:?}");
    }

    #[test]
    fn a_name_of_the_makers_is_left_as_it_is() {
        let bag = (2.0).named("Mix {} of mine".to_owned());
        assert_eq!(formula(bag * 3.0).0, "Mix {} of mine × 3");
        let most = Label::with("most that {} may lift", [Quantity::Count(2, "person", "people")]);
        assert_eq!(most.write(Units::Metric), "most that 2 people may lift");
    }

    #[test]
    #[should_panic(expected = "its formula comes to")]
    fn a_formula_that_does_not_come_to_its_value_is_found() {
        let wrong: Term<Length> = inches(1.0).named("one").by_rule("twice {}", |x| 2.0 * x[0], inches(3.0));
        let _ = wrong.titled("Two", Source::Arithmetic);
    }

    fn last(figure: &Figure<Length>) -> WrittenLine {
        figure.working.lines(Units::Inch).pop().expect("a figure has a line")
    }

    #[test]
    fn a_list_adds_up_in_its_order() {
        let sum = Term::sum([1.0, 2.0, 4.0].map(|length| inches(length).named("bar")));
        let line = last(&sum.titled("All", Source::Arithmetic));
        assert_eq!((line.formula.as_str(), line.numbers.as_str()), ("bar + bar + bar", "1 in + 2 in + 4 in"));
        assert_eq!(line.result, "7 in");
    }

    #[test]
    fn what_was_found_tells_equal_numbers_once() {
        let pieces = Part::list([36.0, 36.0, 24.0].map(|length| inches(length).named("piece")));
        let found = Term::found("{} from {}", [pieces, inches(96.0).named("one length").into()], inches(96.0));
        let line = last(&found.titled("Cut", Source::Arithmetic));
        assert_eq!(line.formula, "3 × piece from one length");
        assert_eq!(line.numbers, "2 × 36 in, 24 in from 96 in");
    }

    #[test]
    fn a_rule_takes_several_numbers() {
        let parts = [inches(3.0).named("one").into(), inches(5.0).named("other").into()];
        let rule = Term::rule("the larger of {} and {}", parts, |x| x[0].max(x[1]), inches(5.0));
        assert_eq!(last(&rule.titled("Larger", Source::Arithmetic)).numbers, "the larger of 3 in and 5 in");
    }

    #[test]
    fn a_stated_number_may_be_all() {
        let figure = inches(2.0).stated("centre of the bars", Source::Typed).ended("Height");
        assert_eq!(figure.working.lines(Units::Inch).len(), 1);
        assert_eq!(last(&figure).formula, "centre of the bars");
    }

    #[test]
    fn a_list_is_summed_in_one_formula() {
        let parts = [("front", 60.0), ("left end", 24.0), ("right end", 24.0)];
        let around = Term::sum(parts.map(|(name, size)| inches(size).named(name)));
        let twice = (around * 2.0).titled("Twice around", Source::Arithmetic);
        let lines = twice.working.lines(Units::Inch);
        assert_eq!(lines[0].formula, "(front + left end + right end) × 2");
        assert_eq!(lines[0].numbers, "(60 in + 24 in + 24 in) × 2");
        assert_eq!(twice.value, inches(60.0) * 2.0 + inches(48.0) * 2.0);
        let nothing = Term::<crate::measure::Length>::sum([]).titled("Nothing", Source::Arithmetic);
        assert_eq!(nothing.working.lines(Units::Inch)[0].formula, "nothing");
    }

    #[test]
    fn what_is_left_of_large_numbers_may_miss_by_their_last_bits() {
        let (large, taken) = (1.0 / 3.0, 1.0 / 3.0 - 1e-9);
        let left = (large.named("all") - taken.named("taken")).by_rule("{}", |parts| parts[0], 1e-9);
        assert_eq!(left.titled("Left", Source::Arithmetic).value, 1e-9);
    }

    #[test]
    #[should_panic(expected = "but its formula comes to")]
    fn a_formula_that_comes_to_something_else_is_found() {
        let sum = inches(60.0).named("front") + inches(24.0).named("end");
        let _ = sum.by_rule("{}", |parts| parts[0], inches(84.000_001)).titled("Around", Source::Arithmetic);
    }

    #[test]
    fn a_name_takes_the_place_of_a_formula() {
        let water = inches(2.0).stated("Water by the table", Source::Typed).called("water");
        let left = (water * (1.0 - 0.25_f64.named("saved"))).titled("What is left", Source::Arithmetic);
        let lines = left.working.lines(Units::Inch);
        assert_eq!(lines[0].formula, "Water by the table");
        assert_eq!(lines[1].formula, "water × (1 − saved)");
        assert_eq!(left.value, inches(2.0) * 0.75);
    }

    #[test]
    fn a_long_list_is_added_up_and_each_line_is_told_once() {
        let shared = inches(1.0).stated("rail", Source::Typed);
        let many = Term::sum(std::iter::repeat_n(shared, 100_000)).titled("Rails", Source::Arithmetic);
        assert!((many.value / inches(100_000.0)).value.sub(1.0).abs() < 1e-9);
        assert_eq!(many.working.lines(Units::Inch).len(), 2);
    }

    #[test]
    fn a_sum_in_a_product_stands_in_brackets() {
        let sum = Term::sum([1.0.named("one"), 2.0.named("two")]);
        let product = (3.0 * sum).titled("Product", Source::Arithmetic);
        assert_eq!(product.value, 9.0);
        assert_eq!(product.working.lines(Units::Inch)[0].formula, "3 × (one + two)");
        let alone = (3.0 * Term::sum([1.0.named("one")])).titled("Product", Source::Arithmetic);
        assert_eq!(alone.working.lines(Units::Inch)[0].formula, "3 × one");
        assert_eq!(Term::<f64>::sum([]).titled("Nothing", Source::Arithmetic).value, 0.0);
    }

    #[test]
    fn a_figure_keeps_its_lines_under_another_title() {
        let figure = (1.0.named("one") + 2.0.named("two")).titled("Sum", Source::Arithmetic);
        let other = figure.retitled("All of it");
        assert_eq!(other.working.title(Units::Inch), "All of it");
        assert_eq!(other.working.lines(Units::Inch), figure.working.lines(Units::Inch));
    }
    #[test]
    fn what_is_rounded_lies_within_its_rounding() {
        let third = 1.0.named("one") / 3.0;
        let told = third.clone().rounded("{}, rounded down to tenths", 0.1, 0.3);
        assert_eq!(told.numbers(Units::Inch), "1 ÷ 3, rounded down to tenths");
        let line = last_of(&told.titled("Third", Source::Arithmetic));
        assert_eq!((line.formula.as_str(), line.result.as_str()), ("one ÷ 3, rounded down to tenths", "0.3"));
    }

    #[test]
    #[should_panic(expected = "but its formula comes to")]
    fn what_is_rounded_too_far_is_found() {
        let _ = (1.0.named("one") / 3.0).rounded("{}", 0.005, 0.34).titled("Third", Source::Arithmetic);
    }

    #[test]
    fn a_rule_takes_every_number_of_a_list() {
        let sizes = Part::list([3.0, 5.0, 4.0].map(|size| size.named("size")));
        let largest = |numbers: &[f64]| numbers.iter().copied().fold(0.0, f64::max);
        let rule = Term::rule("the largest of {}", [sizes], largest, 5.0);
        assert_eq!(last_of(&rule.titled("Largest", Source::Arithmetic)).numbers, "the largest of 3, 5, 4");
    }

    fn last_of(figure: &Figure<f64>) -> WrittenLine {
        figure.working.lines(Units::Inch).pop().expect("a figure has a line")
    }
}
