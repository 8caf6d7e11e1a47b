package stripdown

// partition joins places into parts (union-find).
type partition []int32

func newPartition(n int) partition {
	parent := make(partition, n)
	for i := range parent {
		parent[i] = int32(i)
	}
	return parent
}

func (parent partition) of(v int32) int32 {
	for parent[v] != v {
		parent[v] = parent[parent[v]]
		v = parent[v]
	}
	return v
}

func (parent partition) join(a, b int32) { parent[parent.of(a)] = parent.of(b) }
