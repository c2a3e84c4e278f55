//! The order of nodes that keeps an envelope narrow: reverse Cuthill and McKee.

/// The nodes that each node shares a triangle with.
pub(super) struct Neighbours {
    start: Vec<usize>,
    counts: Vec<usize>,
    nodes: Vec<usize>,
}

impl Neighbours {
    pub(super) fn new(count: usize, triangles: &[[usize; 3]]) -> Self {
        // Every edge is met from both its ends, and inside the top in two triangles.
        let mut start = vec![0; count + 1];
        for node in triangles.iter().flatten() {
            start[node + 1] += 2;
        }
        for node in 0..count {
            start[node + 1] += start[node];
        }
        let mut nodes = vec![0; 6 * triangles.len()];
        let mut counts = vec![0; count];
        for [a, b, c] in triangles {
            for (node, others) in [(*a, [*b, *c]), (*b, [*c, *a]), (*c, [*a, *b])] {
                for other in others {
                    let known = &nodes[start[node]..start[node] + counts[node]];
                    let at = known.partition_point(|known| *known < other);
                    if known.get(at) != Some(&other) {
                        let (from, to) = (start[node] + at, start[node] + counts[node]);
                        nodes.copy_within(from..to, from + 1);
                        nodes[from] = other;
                        counts[node] += 1;
                    }
                }
            }
        }
        Self { start, counts, nodes }
    }

    /// Those of a node, by their numbers.
    pub(super) fn of(&self, node: usize) -> &[usize] {
        &self.nodes[self.start[node]..][..self.counts[node]]
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
                    let after = |known: &usize| self.counts[*known] <= self.counts[*other];
                    let at = level + found[level..].partition_point(after);
                    found.insert(at, *other);
                }
            }
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
