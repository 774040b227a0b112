"""A mesh of eight-node shells gathered from patches, whose nodes merge where patches touch."""

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

TOUCH_M = 1e-6  # Nodes nearer than this are one.


class Mesh:
    """Nodes (n, 3) in m; elements (m, 8), corners then mid-sides, of parts with a thickness and a region."""

    def __init__(self):
        self.nodes = np.empty((0, 3))
        self.elements = np.empty((0, 8), int)
        self.thickness = np.empty(0)
        self.region = np.empty(0, object)

    def add(self, lattice, thickness, region, keep=None):
        """Elements on a lattice (2m+1, 2n+1, 3) of corners and mid-sides.

        `thickness` and `region` are one for all or one per cell (m, n); `keep` (m, n) says which cells are there.
        Points in the middle of cells belong to no element.
        """
        m, n = (lattice.shape[0] - 1) // 2, (lattice.shape[1] - 1) // 2
        number = len(self.nodes) + np.arange(lattice.shape[0] * lattice.shape[1]).reshape(lattice.shape[:2])
        i, j = (2 * a for a in np.meshgrid(np.arange(m), np.arange(n), indexing="ij"))
        steps = [(0, 0), (2, 0), (2, 2), (0, 2), (1, 0), (2, 1), (1, 2), (0, 1)]
        cells = np.stack([number[i + a, j + b] for a, b in steps], axis=-1)
        keep = np.ones((m, n), bool) if keep is None else keep
        self.nodes = np.vstack([self.nodes, lattice.reshape(-1, 3)])
        self.elements = np.vstack([self.elements, cells[keep]])
        self.thickness = np.append(self.thickness, np.broadcast_to(thickness, (m, n))[keep])
        self.region = np.append(self.region, np.broadcast_to(np.array(region, object), (m, n))[keep])

    def merge(self):
        """Makes nodes at the same place one and drops those of no element."""
        used = np.unique(self.elements)
        pairs = cKDTree(self.nodes[used]).query_pairs(TOUCH_M, output_type="ndarray")
        graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(used),) * 2)
        count, label = connected_components(graph, directed=False)
        first = np.full(count, len(self.nodes))
        np.minimum.at(first, label, used)
        renumber = np.zeros(len(self.nodes), int)
        renumber[used] = label
        self.nodes = self.nodes[first]
        self.elements = renumber[self.elements]
        corners = np.sort(self.elements[:, :4], axis=1)
        if len(np.unique(corners, axis=0)) != len(corners):
            raise ValueError("two elements lie over one another")
        if any(len(set(e)) != 8 for e in self.elements):
            raise ValueError("an element is folded onto itself")

    def count_pieces(self, ties=()):
        """Number of parts that hang together; `ties` are sets of nodes that move as one."""
        groups = [*self.elements, *ties]
        rows = np.concatenate([np.asarray(g) for g in groups])
        columns = np.repeat([g[0] for g in groups], [len(g) for g in groups])
        graph = coo_matrix((np.ones(len(rows)), (rows, columns)), shape=(len(self.nodes),) * 2)
        return connected_components(graph, directed=False)[0]

    def find(self, point):
        """The node at a point."""
        distance, node = cKDTree(self.nodes).query(point)
        if distance > TOUCH_M:
            raise ValueError(f"no node at {point}: the nearest is {distance:.4g} m away")
        return int(node)
