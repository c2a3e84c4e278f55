//! What the sides of a shape are, so that edges and corners stay with them when the shape changes.
//!
//! Edges and corners of a piece stand in the order of its sides. Behind them stand those of sides that its shape has
//! not, in the order of [`every_side`] and [`every_corner`], for the day on which it is another shape again.

use super::piece::{Corner, Edge, EdgeKind, Hand, Leg, OutlineShape, Piece};
use super::{Entry, PieceKind};

/// A side by what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Side {
    Front,
    /// The right end.
    Right,
    /// The back of a rectangle, and of the leg of an L.
    Back,
    /// The left end.
    Left,
    /// The back of the front part of an L or a U.
    InnerBack,
    /// The side of the leg of an L that looks at the inside corner.
    InnerLeg,
    /// The back of the right leg of a U.
    RightBack,
    /// The inner side of the right leg of a U.
    InnerRight,
    /// The inner side of the left leg of a U.
    InnerLeft,
    /// The back of the left leg of a U.
    LeftBack,
    /// A side of a walk by its number, where nothing more is known of it.
    Walked(usize),
}

/// A shape with what its sides depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Form {
    shape: OutlineShape,
    hand: Hand,
    /// Sides of the walk.
    walked: usize,
}

impl Form {
    /// Its sides, by number.
    fn sides(self) -> Vec<Side> {
        use Side::{Back, Front, InnerBack, InnerLeft, InnerLeg, InnerRight, Left, LeftBack, Right, RightBack};
        match (self.shape, self.hand) {
            (OutlineShape::Rectangle | OutlineShape::Opening, _) => vec![Front, Right, Back, Left],
            (OutlineShape::L, Hand::Left) => vec![Front, Right, InnerBack, InnerLeg, Back, Left],
            (OutlineShape::L, Hand::Right) => vec![Front, Left, InnerBack, InnerLeg, Back, Right],
            (OutlineShape::U, _) => vec![Front, Right, RightBack, InnerRight, InnerBack, InnerLeft, LeftBack, Left],
            (OutlineShape::Walked, _) => {
                let side = |number: usize| match number {
                    0 => Front,
                    1 => Right,
                    2 if self.walked == 4 => Back,
                    number if number + 1 == self.walked => Left,
                    number => Side::Walked(number),
                };
                (0..self.walked).map(side).collect()
            }
        }
    }

    /// Its corners, each by the side before it and the one that begins there.
    fn corners(self) -> Vec<(Side, Side)> {
        let sides = self.sides();
        let before = sides.iter().cycle().skip(sides.len().saturating_sub(1));
        before.copied().zip(sides.iter().copied()).collect()
    }

    /// It has one back, from end to end.
    fn has_one_back(self) -> bool {
        self.shape != OutlineShape::U && self.shape != OutlineShape::L && self.sides().contains(&Side::Back)
    }
}

/// What a side of one shape is in another; nothing where that has no such side.
fn becomes(side: Side, from: Form, to: Form) -> Vec<Side> {
    let sides = to.sides();
    if sides.contains(&side) {
        return vec![side];
    }
    let [back, inner] = match if from.shape == OutlineShape::L { from.hand } else { to.hand } {
        Hand::Left => [Side::LeftBack, Side::InnerLeft],
        Hand::Right => [Side::RightBack, Side::InnerRight],
    };
    match (side, from.shape, to.shape) {
        (Side::Back, OutlineShape::L, OutlineShape::U) => vec![back],
        (Side::InnerLeg, OutlineShape::L, OutlineShape::U) => vec![inner],
        (side, OutlineShape::U, OutlineShape::L) if side == back => vec![Side::Back],
        (side, OutlineShape::U, OutlineShape::L) if side == inner => vec![Side::InnerLeg],
        // One back is that of both legs, and the other way round.
        (Side::Back, _, OutlineShape::U) => vec![Side::RightBack, Side::LeftBack],
        (Side::RightBack | Side::LeftBack, OutlineShape::U, _) if to.has_one_back() => vec![Side::Back],
        _ => Vec::new(),
    }
}

/// Every shape that a piece can be given.
fn every_form(walked: usize) -> [Form; 5] {
    let form = |shape, hand| Form { shape, hand, walked };
    [
        form(OutlineShape::Rectangle, Hand::Left),
        form(OutlineShape::L, Hand::Left),
        form(OutlineShape::L, Hand::Right),
        form(OutlineShape::U, Hand::Left),
        form(OutlineShape::Walked, Hand::Left),
    ]
}

/// Every one of them once, in the order in which they come up.
fn once<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut found = Vec::new();
    for one in all {
        if !found.contains(&one) {
            found.push(one);
        }
    }
    found
}

/// Every side that any shape has, with a walk of so many sides.
fn every_side(walked: usize) -> Vec<Side> {
    once(every_form(walked).into_iter().flat_map(Form::sides))
}

/// Every corner that any shape has, likewise, each with its sides in order.
fn every_corner(walked: usize) -> Vec<(Side, Side)> {
    once(every_form(walked).into_iter().flat_map(Form::corners).map(|(one, other)| (one.min(other), one.max(other))))
}

/// A corner as it is seen from the other side of the piece, where the side after it comes before it.
fn turned(corner: Corner) -> Corner {
    Corner { before: corner.after, after: corner.before, ..corner }
}

/// What was chosen, by side or corner.
struct Kept<K, V>(Vec<(K, V)>);

/// Edges by their side, and corners by their two sides in order.
type AllKept = (Kept<Side, Edge>, Kept<(Side, Side), Corner>);

impl<K: PartialEq, V: Clone> Kept<K, V> {
    fn get(&self, key: &K) -> Option<V> {
        self.0.iter().find(|(own, _)| own == key).map(|(_, value)| value.clone())
    }
}

impl Piece {
    fn form(&self) -> Form {
        Form { shape: self.shape, hand: self.hand, walked: self.walk.len() }
    }

    /// Gives it another shape. Edges and corners stay with their sides; a side that it had not has what was chosen
    /// for it before, else the usual edge and a sharp corner. A first walk has four sides with square corners.
    pub fn take_shape(&mut self, shape: OutlineShape) {
        let (from, kept) = (self.form(), self.kept());
        if shape == OutlineShape::Walked && self.walk.is_empty() {
            self.walk = vec![Leg { angle: Entry::new("90"), ..Leg::default() }; 4];
        }
        self.shape = shape;
        self.lay(from, &kept);
    }

    /// Stands the leg of an L at that end. Edges and corners stay with their sides.
    pub fn take_hand(&mut self, hand: Hand) {
        let (from, kept) = (self.form(), self.kept());
        self.hand = hand;
        self.lay(from, &kept);
    }

    /// Adds a side at the end of the walk, with a plain edge and a sharp corner; the others keep their numbers.
    pub fn add_walked_side(&mut self) {
        self.change_walk(|walk| walk.push(Leg::default()));
    }

    /// Takes away the last side of the walk, with its edge and the corner where it begins.
    pub fn remove_walked_side(&mut self) {
        self.change_walk(|walk| drop(walk.pop()));
    }

    fn change_walk(&mut self, change: impl FnOnce(&mut Vec<Leg>)) {
        let (edges, corners) = self.kept();
        let (before, shown) = (self.walk.len(), self.shape == OutlineShape::Walked);
        let seen = (0..before).map(|side| (self.edge(side), self.corner(side))).collect::<Vec<_>>();
        change(&mut self.walk);
        let to = self.form();
        self.lay(to, &(edges, corners));
        if shown {
            for side in 0..self.walk.len() {
                let (edge, corner) = seen.get(side).cloned().unwrap_or_default();
                *self.edge_mut(side) = edge;
                *self.corner_mut(side) = corner;
            }
            self.drop_sharp_corners();
        }
    }

    /// The usual edge of a side: the back of a top stands against a wall.
    fn usual(&self, side: Side) -> Edge {
        let back = matches!(side, Side::Back | Side::LeftBack | Side::RightBack);
        let kind = if back && self.kind == PieceKind::Top { EdgeKind::Wall } else { EdgeKind::Plain };
        Edge { kind, ..Edge::default() }
    }

    /// What is chosen for the sides and corners that it has, and was for those that it has not.
    fn kept(&self) -> AllKept {
        let form = self.form();
        let (sides, corners) = (form.sides(), form.corners());
        let shown = sides.iter().enumerate().map(|(side, name)| (*name, self.edge(side)));
        let hidden = every_side(form.walked).into_iter().filter(|side| !sides.contains(side));
        let edges = shown.chain(hidden.zip(self.edges.iter().skip(sides.len()).cloned())).collect();
        let shown = corners.iter().enumerate().map(|(side, name)| (*name, self.corner(side)));
        let hidden = every_corner(form.walked).into_iter().filter(|corner| !has(&corners, *corner));
        let all = shown.chain(hidden.zip(self.corners.iter().skip(corners.len()).cloned()));
        let ordered = all.map(|((one, other), corner)| match one <= other {
            true => ((one, other), corner),
            false => ((other, one), turned(corner)),
        });
        (Kept(edges), Kept(ordered.collect()))
    }

    /// Lays out what is kept by the shape that it has now, having had another one.
    fn lay(&mut self, from: Form, (edges, corners): &AllKept) {
        let to = self.form();
        let (had, has_now) = (from.sides(), to.sides());
        let shown = |side: &Side| {
            if had.contains(side) {
                return edges.get(side);
            }
            let was: Vec<_> = had.iter().filter(|was| becomes(**was, from, to).contains(side)).collect();
            let all: Vec<_> = was.iter().filter_map(|was| edges.get(was)).collect();
            let alike = all.first().filter(|first| all.iter().all(|edge| edge == *first)).cloned();
            // Each leg of a U has a back of its own, which outranks the one that both came from.
            let own = from.has_one_back() && to.shape == OutlineShape::U;
            if own { edges.get(side).or(alike) } else { alike.or_else(|| edges.get(side)) }
        };
        let mut laid: Vec<Edge> = has_now.iter().map(|side| shown(side).unwrap_or_else(|| self.usual(*side))).collect();
        let hidden: Vec<_> = every_side(to.walked).into_iter().filter(|side| !has_now.contains(side)).collect();
        let known = hidden.iter().rposition(|side| edges.get(side).is_some()).map_or(0, |last| last + 1);
        laid.extend(hidden[..known].iter().map(|side| edges.get(side).unwrap_or_else(|| self.usual(*side))));
        self.edges = laid;

        let (had, has_now) = (from.corners(), to.corners());
        let shown = |(before, after): (Side, Side)| {
            let was = had.iter().find(|(one, other)| {
                let (one, other) = (becomes(*one, from, to), becomes(*other, from, to));
                (one.contains(&before) && other.contains(&after)) || (one.contains(&after) && other.contains(&before))
            });
            let Some(&(one, other)) = was else { return corner_of(corners, before, after) };
            let same_way = becomes(one, from, to).contains(&before);
            let (one, other) = if same_way { (one, other) } else { (other, one) };
            corner_of(corners, one, other)
        };
        let mut laid: Vec<Corner> = has_now.iter().map(|corner| shown(*corner)).collect();
        let hidden = every_corner(to.walked).into_iter().filter(|corner| !has(&has_now, *corner));
        laid.extend(hidden.map(|corner| corners.get(&corner).unwrap_or_default()));
        self.corners = laid;
        self.drop_sharp_corners();
    }

    /// There may be fewer corners than the outline has: the rest are sharp.
    fn drop_sharp_corners(&mut self) {
        let last = self.corners.iter().rposition(|corner| *corner != Corner::default());
        self.corners.truncate(last.map_or(0, |last| last + 1));
    }
}

/// One of the corners is that one, whichever of its sides comes first.
fn has(corners: &[(Side, Side)], (one, other): (Side, Side)) -> bool {
    corners.contains(&(one, other)) || corners.contains(&(other, one))
}

/// The corner between two sides as the first of them comes before it; sharp if nothing is kept for it.
fn corner_of(corners: &Kept<(Side, Side), Corner>, before: Side, after: Side) -> Corner {
    if before <= after {
        corners.get(&(before, after)).unwrap_or_default()
    } else {
        corners.get(&(after, before)).map(turned).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::CornerKind;
    use crate::measure::Units;
    use std::collections::BTreeMap;

    /// Every shape, the L at either hand; a walk of four sides and one of seven.
    const FORMS: [(OutlineShape, Hand, usize); 7] = [
        (OutlineShape::Rectangle, Hand::Left, 4),
        (OutlineShape::Opening, Hand::Left, 4),
        (OutlineShape::L, Hand::Left, 4),
        (OutlineShape::L, Hand::Right, 4),
        (OutlineShape::U, Hand::Left, 4),
        (OutlineShape::Walked, Hand::Left, 4),
        (OutlineShape::Walked, Hand::Right, 7),
    ];

    fn take(piece: &mut Piece, (shape, hand, _): (OutlineShape, Hand, usize)) {
        // The hand means something in an L alone; it becomes one at the hand that it had last.
        if piece.shape != OutlineShape::L {
            piece.hand = hand;
        }
        piece.take_shape(shape);
        if shape == OutlineShape::L {
            piece.take_hand(hand);
        }
    }

    /// A piece of that shape of which every side and every corner says where it is.
    fn marked(form: (OutlineShape, Hand, usize)) -> Piece {
        let mut piece = Piece::new("Top", "", Units::Inch);
        piece.walk = vec![Leg::default(); form.2];
        (piece.shape, piece.hand) = (form.0, form.1);
        for side in 0..piece.sides() {
            let (liner, kind) = (piece.side_name(side).as_str().into(), EdgeKind::Lined);
            *piece.edge_mut(side) = Edge { kind, liner, ..Edge::default() };
            let before = piece.side_name((side + piece.sides() - 1) % piece.sides());
            let (before, after) = (before.as_str().into(), piece.side_name(side).as_str().into());
            *piece.corner_mut(side) =
                Corner { kind: CornerKind::Clipped, radius: piece.corner_name(side).as_str().into(), before, after };
        }
        piece
    }

    /// What stands on every side, by the side's name.
    fn edges(piece: &Piece) -> BTreeMap<String, Edge> {
        (0..piece.sides()).map(|side| (piece.side_name(side), piece.edge(side))).collect()
    }

    /// What is done at every corner, by the names of its two sides, each with what is cut off it.
    fn corners(piece: &Piece) -> BTreeMap<[String; 2], (CornerKind, String, [String; 2])> {
        let sides = piece.sides();
        let corner = |side: usize| {
            let (before, after) = (piece.side_name((side + sides - 1) % sides), piece.side_name(side));
            let Corner { kind, radius, before: cut, after: cut_after } = piece.corner(side);
            let mut both = [(before, cut.0), (after, cut_after.0)];
            both.sort();
            let [(one, cut), (other, cut_after)] = both;
            ([one, other], (kind, radius.0, [cut, cut_after]))
        };
        (0..sides).map(corner).collect()
    }

    /// What a side of one shape is called in another, for those whose name is another one there; written down by hand.
    /// The leg of an L at the left end has its back and its inner side where a U has those of its left leg.
    fn called(name: &str, from: (OutlineShape, Hand, usize), to: (OutlineShape, Hand, usize)) -> Option<&'static str> {
        use OutlineShape::{L, U, Walked};
        let (left, right) = (Hand::Left, Hand::Right);
        Some(match (name, from, to) {
            ("Back", (L, hand, _), (U, ..)) if hand == left => "Left back",
            ("Back", (L, hand, _), (U, ..)) if hand == right => "Right back",
            ("Inner right", (L, hand, _), (U, ..)) if hand == left => "Inner left",
            ("Inner left", (L, hand, _), (U, ..)) if hand == right => "Inner right",
            ("Left back", (U, ..), (L, hand, _)) if hand == left => "Back",
            ("Right back", (U, ..), (L, hand, _)) if hand == right => "Back",
            ("Inner left", (U, ..), (L, hand, _)) if hand == left => "Inner right",
            ("Inner right", (U, ..), (L, hand, _)) if hand == right => "Inner left",
            // The inner side of a leg looks the other way once the leg stands at the other end.
            ("Inner right", (L, hand, _), (L, other, _)) if (hand, other) == (left, right) => "Inner left",
            ("Inner left", (L, hand, _), (L, other, _)) if (hand, other) == (right, left) => "Inner right",
            ("Inner right" | "Inner left", (U, ..), _) => return None,
            (_, (Walked, ..), (Walked, ..)) => return None,
            ("Front", ..) => "Front",
            ("Right", ..) => "Right",
            ("Left", ..) => "Left",
            ("Inner back", ..) => "Inner back",
            ("Back", ..) => "Back",
            _ => return None,
        })
    }

    /// A walk has numbers for names: the first side is the front, the second the right end, the last the left end.
    fn plain_name(piece: &Piece, side: usize) -> String {
        if piece.shape != OutlineShape::Walked {
            return piece.side_name(side);
        }
        match (side, piece.walk.len()) {
            (0, _) => "Front".to_owned(),
            (1, _) => "Right".to_owned(),
            (2, 4) => "Back".to_owned(),
            (side, sides) if side + 1 == sides => "Left".to_owned(),
            _ => piece.side_name(side),
        }
    }

    #[test]
    fn every_edge_stays_with_its_side_and_comes_back() {
        for from in FORMS {
            for to in FORMS.into_iter().filter(|to| from.2 == to.2 || from.0 != OutlineShape::Walked) {
                let before = marked((from.0, from.1, to.2));
                let mut piece = before.clone();
                take(&mut piece, to);
                let now: BTreeMap<_, _> =
                    (0..piece.sides()).map(|side| (plain_name(&piece, side), piece.edge(side))).collect();
                let mut stayed = Vec::new();
                if before.shape == piece.shape && before.hand == piece.hand {
                    assert_eq!((&piece.edges, corners(&piece)), (&before.edges, corners(&before)), "{from:?}");
                    continue;
                }
                for side in 0..before.sides() {
                    let Some(name) = called(&plain_name(&before, side), from, to) else { continue };
                    if let Some(edge) = now.get(name) {
                        assert_eq!(edge, &before.edge(side), "{name}, from {from:?} to {to:?}");
                        stayed.push(name);
                    }
                }
                for always in ["Front", "Right", "Left"] {
                    assert!(stayed.contains(&always), "{always}, from {from:?} to {to:?}");
                }
                for (name, edge) in &now {
                    let copied =
                        name.ends_with(" back") && piece.shape == OutlineShape::U && before.form().has_one_back();
                    if !stayed.contains(&name.as_str()) && !copied && !name.starts_with("Inner back") {
                        let wall = name.to_lowercase().ends_with("back");
                        let usual = if wall { EdgeKind::Wall } else { EdgeKind::Plain };
                        assert_eq!((edge.kind, edge.liner.text()), (usual, ""), "{name}, from {from:?} to {to:?}");
                    }
                }
                take(&mut piece, from);
                assert_eq!(edges(&piece), edges(&before), "from {from:?} to {to:?} and back");
                assert_eq!(corners(&piece), corners(&before), "from {from:?} to {to:?} and back");
            }
        }
    }

    /// A rounded end of a rectangle stays between its front and its left end in every other shape.
    #[test]
    fn every_corner_between_two_sides_that_stay_next_to_each_other_stays() {
        for from in FORMS {
            for to in FORMS.into_iter().filter(|to| from.2 == to.2 || from.0 != OutlineShape::Walked) {
                let before = marked((from.0, from.1, to.2));
                let mut piece = before.clone();
                take(&mut piece, to);
                let of = |piece: &Piece, one: &str, other: &str| {
                    let sides = piece.sides();
                    let found = (0..sides).find(|side| {
                        let pair = [plain_name(piece, (side + sides - 1) % sides), plain_name(piece, *side)];
                        pair == [one, other] || pair == [other, one]
                    })?;
                    let corner = piece.corner(found);
                    let ordered = plain_name(piece, found) == other;
                    let cut = [corner.before.clone(), corner.after.clone()];
                    Some((corner.kind, corner.radius, if ordered { cut } else { [cut[1].clone(), cut[0].clone()] }))
                };
                for (one, other) in [("Left", "Front"), ("Front", "Right")] {
                    assert!(of(&before, one, other).is_some());
                    assert_eq!(of(&piece, one, other), of(&before, one, other), "{one} {other}, {from:?} to {to:?}");
                }
                if let (Some(was), Some(now)) = (of(&before, "Back", "Left"), of(&piece, "Back", "Left")) {
                    assert_eq!(now, was, "{from:?} to {to:?}");
                }
            }
        }
        // The inside corner of an L is one of the two of a U, and stays when the leg changes ends.
        let mut piece = marked((OutlineShape::L, Hand::Left, 4));
        let inside = corners(&piece)[&["Inner back".to_owned(), "Inner right".to_owned()]].clone();
        piece.take_hand(Hand::Right);
        assert_eq!(corners(&piece)[&["Inner back".to_owned(), "Inner left".to_owned()]], inside);
        piece.take_shape(OutlineShape::U);
        assert_eq!(corners(&piece)[&["Inner back".to_owned(), "Inner right".to_owned()]], inside);
        assert_eq!(corners(&piece)[&["Inner back".to_owned(), "Inner left".to_owned()]].0, CornerKind::Square);
    }

    /// Through all shapes, one after another, and back to every one of them.
    #[test]
    fn what_has_no_side_is_kept_through_every_other_shape() {
        for first in FORMS.into_iter().filter(|form| form.2 == 4) {
            let before = marked(first);
            for last in FORMS.into_iter().filter(|form| form.2 == 4) {
                let mut piece = before.clone();
                take(&mut piece, last);
                take(&mut piece, first);
                for through in FORMS.into_iter().filter(|form| form.2 == 4 && form.0 != OutlineShape::U) {
                    take(&mut piece, through);
                }
                take(&mut piece, first);
                let (now, was) = (edges(&piece), edges(&before));
                // The leg that an L has is where one of the legs of a U is: what stands there goes from hand to hand.
                let legs = ["Left back", "Right back", "Inner left", "Inner right"];
                let rest = |edges: BTreeMap<String, Edge>| -> Vec<_> {
                    edges
                        .into_iter()
                        .filter(|(name, _)| first.0 != OutlineShape::U || !legs.contains(&name.as_str()))
                        .collect()
                };
                assert_eq!(rest(now), rest(was), "{first:?} by way of {last:?}");
            }
        }
    }

    #[test]
    fn one_back_is_that_of_both_legs_and_each_leg_keeps_its_own() {
        let mut piece = Piece::new("Top", "", Units::Inch);
        piece.edge_mut(2).kind = EdgeKind::Eased;
        piece.take_shape(OutlineShape::U);
        let kinds = |piece: &Piece| (0..piece.sides()).map(|side| piece.edge(side).kind).collect::<Vec<_>>();
        use EdgeKind::{Eased, Lined, Plain};
        assert_eq!(kinds(&piece), [Plain, Plain, Eased, Plain, Plain, Plain, Eased, Plain]);
        // Both alike are the one back again.
        (piece.edge_mut(2).kind, piece.edge_mut(6).kind) = (Lined, Lined);
        piece.take_shape(OutlineShape::Rectangle);
        assert_eq!(kinds(&piece), [Plain, Plain, Lined, Plain]);
        // Two that differ are kept for the U, and the rectangle has what it had.
        piece.take_shape(OutlineShape::U);
        piece.edge_mut(6).kind = Plain;
        piece.take_shape(OutlineShape::Rectangle);
        assert_eq!(kinds(&piece), [Plain, Plain, Lined, Plain]);
        piece.take_shape(OutlineShape::U);
        assert_eq!(kinds(&piece), [Plain, Plain, Lined, Plain, Plain, Plain, Plain, Plain]);
    }

    #[test]
    fn a_walk_keeps_its_edges_by_number_as_it_grows_and_gives_none_that_another_shape_had() {
        let mut piece = marked((OutlineShape::U, Hand::Left, 0));
        piece.take_shape(OutlineShape::Walked);
        assert_eq!(piece.walk.len(), 4);
        assert!(piece.walk.iter().all(|leg| leg.angle.text() == "90"));
        let four: Vec<_> = (0..4).map(|side| (piece.edge(side), piece.corner(side))).collect();
        piece.add_walked_side();
        let five: Vec<_> = (0..5).map(|side| (piece.edge(side), piece.corner(side))).collect();
        assert_eq!((&five[..4], &five[4]), (&four[..], &(Edge::default(), Corner::default())));
        piece.edge_mut(4).kind = EdgeKind::Eased;
        piece.remove_walked_side();
        piece.add_walked_side();
        assert_eq!(piece.edge(4), Edge::default(), "a side that was taken away is gone with its edge");
        piece.take_shape(OutlineShape::U);
        let back = ["Right back", "Inner right", "Inner back", "Inner left", "Left back"];
        for (side, name) in (2..7).zip(back) {
            assert_eq!(piece.edge(side).liner.text(), name);
        }
        for _ in 0..6 {
            piece.remove_walked_side();
        }
        assert!(piece.walk.is_empty());
    }

    #[test]
    fn a_strip_has_no_wall_on_a_side_that_is_new() {
        let mut piece = Piece::new("Top", "", Units::Inch).beside(PieceKind::Apron, None, Units::Inch);
        piece.take_shape(OutlineShape::U);
        assert!((0..8).all(|side| piece.edge(side).kind == EdgeKind::Plain));
        piece.take_shape(OutlineShape::Rectangle);
        assert!((0..4).all(|side| piece.edge(side).kind == EdgeKind::Plain));
    }
}
