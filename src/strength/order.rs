//! The order of nodes that keeps an envelope narrow: reverse Cuthill and McKee.

/// The nodes that each node shares a triangle with.
pub(super) struct Neighbours {
    start: Vec<usize>,
    nodes: Vec<usize>,
}

impl Neighbours {
    pub(super) fn new(count: usize, triangles: &[[usize; 3]]) -> Self {
        let mut pairs: Vec<(usize, usize)> = Vec::with_capacity(6 * triangles.len());
        for [a, b, c] in triangles {
            pairs.extend([(*a, *b), (*b, *a), (*b, *c), (*c, *b), (*c, *a), (*a, *c)]);
        }
        pairs.sort_unstable();
        pairs.dedup();
        let mut start = vec![0; count + 1];
        for (node, _) in &pairs {
            start[node + 1] += 1;
        }
        for node in 0..count {
            start[node + 1] += start[node];
        }
        Self { start, nodes: pairs.into_iter().map(|pair| pair.1).collect() }
    }

    fn of(&self, node: usize) -> &[usize] {
        &self.nodes[self.start[node]..self.start[node + 1]]
    }

    /// The nodes reached from one, by distance, those with fewer neighbours first; those taken are left out.
    fn breadth_first(&self, from: usize, taken: &mut [bool]) -> Vec<usize> {
        let mut found = vec![from];
        taken[from] = true;
        let mut next = 0;
        while let Some(node) = found.get(next).copied() {
            next += 1;
            let level = found.len();
            for other in self.of(node) {
                if !taken[*other] {
                    taken[*other] = true;
                    found.push(*other);
                }
            }
            found[level..].sort_by_key(|other| (self.of(*other).len(), *other));
        }
        found
    }
}

/// The place of each node by reverse Cuthill and McKee, from a node as far out as can be found.
pub(super) fn order(count: usize, neighbours: &Neighbours) -> Vec<usize> {
    let mut taken = vec![false; count];
    let mut sequence = Vec::with_capacity(count);
    for node in 0..count {
        if taken[node] {
            continue;
        }
        let mut far = node;
        for _ in 0..3 {
            let reached = neighbours.breadth_first(far, &mut taken);
            reached.iter().for_each(|node| taken[*node] = false);
            far = reached.last().copied().unwrap_or(far);
        }
        sequence.extend(neighbours.breadth_first(far, &mut taken));
    }
    let mut place = vec![0; count];
    for (index, node) in sequence.into_iter().rev().enumerate() {
        place[node] = index;
    }
    place
}
