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
    /// All of a list, one after the other.
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
                let parts: Option<Vec<_>> = parts.iter().map(|part| part.evaluate()).collect();
                Some(apply(&parts?))
            }
            Self::Sum(parts) => parts.iter().try_fold(0.0, |sum, part| Some(sum + part.evaluate()?)),
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
            Self::Named(..) | Self::Constant(_) | Self::Rule(..) => found,
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
                    let joined = matches!(part.as_ref(), Self::Joined(..)) && !alone && parts.len() > 1;
                    written += &if joined { format!("({text})") } else { text };
                    written += word;
                }
                written
            }
            Self::Sum(parts) if parts.is_empty() => "nothing".to_owned(),
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
            let through = self.formula.as_ref().map_or(0.0, |formula| formula.goes_through());
            let same = found == value || found.is_nan() || (found - value).abs() <= 1e-12 * value.abs().max(through);
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

impl<A> Sub<Term<A>> for f64
where
    f64: Sub<A>,
{
    type Output = Term<<f64 as Sub<A>>::Output>;

    fn sub(self, other: Term<A>) -> Self::Output {
        let node = Arc::new(Node::Joined(Join::Minus, Arc::new(Node::Constant(self)), other.node));
        Term { value: self - other.value, node, before: other.before }
    }
}

impl<Q> Term<Q> {
    /// The value goes on under that name alone, written in a way of its own; the lines before it stay.
    pub fn called_as(self, name: impl Into<Label>, quantity: Quantity) -> Self {
        Self { before: self.before, ..Self::leaf(self.value, name.into(), quantity) }
    }

    /// The same with the lines of another working before all of its own.
    pub fn after_first(mut self, other: &Working) -> Self {
        let own = std::mem::take(&mut self.before);
        add_lines(&mut self.before, other.raw_lines());
        add_lines(&mut self.before, &own);
        self
    }
}

impl<Q: Measured> Term<Q> {
    /// The value goes on under that name alone; the lines before it stay.
    pub fn called(self, name: impl Into<Label>) -> Self {
        let quantity = self.value.quantity();
        self.called_as(name, quantity)
    }
}

impl<Q: Add<Output = Q> + Default> Term<Q> {
    /// All of a list, one after the other: "front + left end + right end". Nothing of an empty list.
    pub fn sum(parts: impl IntoIterator<Item = Self>) -> Self {
        let (mut value, mut nodes, mut before) = (Q::default(), Vec::new(), Vec::new());
        for part in parts {
            value = value + part.value;
            nodes.push(part.node);
            add_lines(&mut before, &part.before);
        }
        Self { value, node: Arc::new(Node::Sum(nodes)), before }
    }
}

impl Term<uom::si::f64::Ratio> {
    /// A ratio as the plain number that it is.
    pub fn number(self) -> Term<f64> {
        Term { value: self.value.value, node: self.node, before: self.before }
    }
}

impl Term<u32> {
    /// A count as a number that quantities are multiplied by.
    pub fn number(self) -> Term<f64> {
        Term { value: f64::from(self.value), node: self.node, before: self.before }
    }
}

impl<T> Figure<T> {
    /// A figure that is not worked out: one line says what goes in, and where it comes from.
    pub fn stated_as(value: T, title: impl Into<Label>, quantity: Quantity, source: Source) -> Self {
        let title = title.into();
        let step = Step { name: title.clone(), formula: None, result: quantity, source };
        Self { value, working: Working::of_lines(title, vec![Line::Step(Arc::new(step))]) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::exact::inches;

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
}
