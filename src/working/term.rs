//! Expressions that remember their names: a value, and the formula that it follows from.

use super::figure::{Figure, Label, Line, Source, Working, WrittenLine, add_lines};
use crate::measure::{Measured, Quantity, Units};
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
    /// A list that is added up; nothing for an empty one.
    Sum(Vec<Arc<Node>>),
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
            (Self::Sum(parts), Self::Sum(found)) => parts == found,
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
        let inner = match part {
            Node::Joined(inner, ..) => *inner,
            Node::Sum(parts) if parts.len() > 1 => Self::Plus,
            _ => return false,
        };
        match self {
            Self::Plus => false,
            Self::Minus => right && inner.is_sum(),
            Self::Times => inner.is_sum(),
            Self::Over => inner.is_sum() || right,
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
                let parts: Option<Vec<_>> = parts.iter().map(|part| part.evaluate()).collect();
                Some(apply(&parts?))
            }
            Self::Sum(parts) => {
                let mut parts = parts.iter().map(|part| part.evaluate());
                let first = parts.next().unwrap_or(Some(0.0))?;
                parts.try_fold(first, |sum, part| Some(sum + part?))
            }
        }
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
            Self::Rule(says, _, parts) => {
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
            Self::Sum(parts) if parts.is_empty() => "nothing to add up".to_owned(),
            Self::Sum(parts) => parts.iter().map(|part| part.write(text)).collect::<Vec<_>>().join(" + "),
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

    pub(super) fn write(&self, units: Units, last: bool) -> WrittenLine {
        let name = self.name.write(units);
        let result = self.result.write(units).to_string();
        let Some(node) = &self.formula else {
            return WrittenLine { formula: name, numbers: String::new(), result, source: self.source };
        };
        let formula = node.write(&|label, _| label.write(units));
        let formula = if last { formula } else { format!("{name} = {formula}") };
        let numbers = node.write(&|_, quantity| quantity.write(units).text);
        WrittenLine { formula, numbers, result, source: self.source }
    }
}

/// A value in the middle of a calculation: what it is, and the formula so far.
#[derive(Clone, Debug)]
pub struct Term<Q> {
    /// The value.
    pub value: Q,
    node: Arc<Node>,
    /// The lines of what goes in, each once.
    before: Vec<Line>,
}

/// What can go into a calculation by name.
pub trait Named: Measured {
    /// The value under a name: "finished thickness".
    fn named(self, name: impl Into<Label>) -> Term<Self> {
        Term::leaf(self, name.into(), self.quantity())
    }

    /// The value under a name, on a line of its own that says where it comes from.
    fn stated(self, name: impl Into<Label>, source: Source) -> Term<Self> {
        Term::stated_as(self, name, self.quantity(), source)
    }
}

impl<Q: Measured> Named for Q {}

impl<Q> Term<Q> {
    fn leaf(value: Q, name: Label, quantity: Quantity) -> Self {
        Self { value, node: Arc::new(Node::Named(name, quantity)), before: Vec::new() }
    }

    /// A value under a name, written in a way of its own: `Term::named_as(water, "water", Quantity::Water(water))`.
    pub fn named_as(value: Q, name: impl Into<Label>, quantity: Quantity) -> Self {
        Self::leaf(value, name.into(), quantity)
    }

    /// The same on a line of its own that says where the value comes from.
    pub fn stated_as(value: Q, name: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        let name = name.into();
        let step = Step { name: name.clone(), formula: None, result: quantity.clone(), source };
        Self { before: vec![Line::Step(Arc::new(step))], ..Self::leaf(value, name.in_sentence(), quantity) }
    }

    /// The whole formula as a rule in words about it: "{}, rounded up to whole bags". `apply` takes the value in SI
    /// units.
    pub fn by_rule<P>(self, says: &'static str, apply: fn(&[f64]) -> f64, value: P) -> Term<P> {
        Term { value, node: Arc::new(Node::Rule(says, apply, vec![self.node])), before: self.before }
    }

    /// A rule in words about this and another number: "the larger of {} and {}".
    pub fn with_rule<B, P>(self, other: Term<B>, says: &'static str, apply: fn(&[f64]) -> f64, value: P) -> Term<P> {
        let mut before = self.before;
        add_lines(&mut before, &other.before);
        Term { value, node: Arc::new(Node::Rule(says, apply, vec![self.node, other.node])), before }
    }

    /// The same with the lines of another working before it.
    pub fn after(mut self, other: &Working) -> Self {
        add_lines(&mut self.before, other.raw_lines());
        self
    }

    /// A line of its own for what the formula comes to so far; it goes on under its name.
    pub fn step_as(self, name: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        let name = name.into();
        let (step, mut before) = (self.node, self.before);
        let step = Step { name: name.clone(), formula: Some(step), result: quantity.clone(), source };
        step.check();
        before.push(Line::Step(Arc::new(step)));
        Self { before, ..Self::leaf(self.value, name.in_sentence(), quantity) }
    }

    /// The end of a calculation, in a way of writing of its own.
    pub fn titled_as(self, title: impl Into<Label>, quantity: Quantity, source: Source) -> Figure<Q> {
        let title = title.into();
        let mut lines = self.before;
        let step = Step { name: title.clone(), formula: Some(self.node), result: quantity, source };
        step.check();
        lines.push(Line::Step(Arc::new(step)));
        Figure { value: self.value, working: Working::of_lines(title, lines) }
    }

    /// What is concluded from the number: "3 people and a cart".
    pub fn concluded<T>(self, value: T, title: impl Into<Label>, quantity: Quantity, source: Source) -> Figure<T> {
        Term { value, node: self.node, before: self.before }.titled_as(title, quantity, source)
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
    pub fn sum(parts: impl IntoIterator<Item = Self>) -> Self
    where
        Q: Default + Add<Output = Q>,
    {
        let (mut nodes, mut lines) = (Vec::new(), Vec::new());
        let mut sum: Option<Q> = None;
        for part in parts {
            sum = Some(match sum {
                Some(sum) => sum + part.value,
                None => part.value,
            });
            nodes.push(part.node);
            lines.extend(part.before);
        }
        let mut before = Vec::new();
        add_lines(&mut before, &lines);
        Self { value: sum.unwrap_or_default(), node: Arc::new(Node::Sum(nodes)), before }
    }

    /// The same with the lines of another number before it, which it follows from in another way than by a formula.
    pub fn with_lines_of<B>(mut self, other: &Term<B>) -> Self {
        add_lines(&mut self.before, &other.before);
        self
    }
}

impl Term<uom::si::f64::Ratio> {
    /// The ratio as a plain number.
    pub fn plain(self) -> Term<f64> {
        Term { value: self.value.value, node: self.node, before: self.before }
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

impl<Q: Measured> Term<Q> {
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
            let same = found == value || found.is_nan() || (found - value).abs() <= 1e-12 * value.abs();
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
        let leaf = Term::leaf(self.value, name.into(), self.value.quantity());
        Term { before: self.working.raw_lines().to_vec(), ..leaf }
    }

    /// The figure in a formula, under its title, written in a way of its own.
    pub fn term_as(&self, quantity: Quantity) -> Term<T> {
        let leaf = Term::leaf(self.value.clone(), self.working.title_label().in_sentence(), quantity);
        Term { before: self.working.raw_lines().to_vec(), ..leaf }
    }

    /// The same number and lines under another title.
    pub fn retitled(&self, title: impl Into<Label>) -> Self {
        let lines = self.working.raw_lines().to_vec();
        Self { value: self.value.clone(), working: Working::of_lines(title.into(), lines) }
    }
}

macro_rules! joined {
    ($($operator:ident, $method:ident, $join:ident;)*) => {
        $(
            impl<A: $operator<B>, B> $operator<Term<B>> for Term<A> {
                type Output = Term<A::Output>;

                fn $method(self, other: Term<B>) -> Term<A::Output> {
                    let mut before = self.before;
                    add_lines(&mut before, &other.before);
                    let node = Arc::new(Node::Joined(Join::$join, self.node, other.node));
                    Term { value: self.value.$method(other.value), node, before }
                }
            }

            /// With a plain number of the formula itself.
            impl<A: $operator<f64>> $operator<f64> for Term<A> {
                type Output = Term<A::Output>;

                fn $method(self, other: f64) -> Term<A::Output> {
                    let node = Arc::new(Node::Joined(Join::$join, self.node, Arc::new(Node::Constant(other))));
                    Term { value: self.value.$method(other), node, before: self.before }
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

impl<A> Mul<Term<A>> for f64
where
    f64: Mul<A>,
{
    type Output = Term<<f64 as Mul<A>>::Output>;

    fn mul(self, other: Term<A>) -> Self::Output {
        let node = Arc::new(Node::Joined(Join::Times, Arc::new(Node::Constant(self)), other.node));
        Term { value: self * other.value, node, before: other.before }
    }
}

impl<A> Add<Term<A>> for f64
where
    f64: Add<A>,
{
    type Output = Term<<f64 as Add<A>>::Output>;

    fn add(self, other: Term<A>) -> Self::Output {
        let node = Arc::new(Node::Joined(Join::Plus, Arc::new(Node::Constant(self)), other.node));
        Term { value: self + other.value, node, before: other.before }
    }
}

impl<A> Div<Term<A>> for f64
where
    f64: Div<A>,
{
    type Output = Term<<f64 as Div<A>>::Output>;

    fn div(self, other: Term<A>) -> Self::Output {
        let node = Arc::new(Node::Joined(Join::Over, Arc::new(Node::Constant(self)), other.node));
        Term { value: self / other.value, node, before: other.before }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::inches;

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
}
