package project

// heap keeps activities by how much they matter, the most first.
type heap struct {
	list []int32
	at   []int32 // -1: not in it
}

func newHeap(n int) heap {
	h := heap{list: make([]int32, n), at: make([]int32, n)}
	for i := range n {
		h.list[i], h.at[i] = int32(i), int32(i)
	}
	return h
}

func (h *heap) push(i int32, weight []float64) {
	if h.at[i] >= 0 {
		return
	}
	h.at[i] = int32(len(h.list))
	h.list = append(h.list, i)
	h.raised(i, weight)
}

// raised moves i up after its weight has grown.
func (h *heap) raised(i int32, weight []float64) {
	k := h.at[i]
	for k > 0 {
		up := (k - 1) / 2
		if weight[h.list[up]] >= weight[i] {
			break
		}
		h.put(k, h.list[up])
		k = up
	}
	if k >= 0 {
		h.put(k, i)
	}
}

func (h *heap) put(k, i int32) { h.list[k], h.at[i] = i, k }

// pop takes the one that matters most, -1 if there is none.
func (h *heap) pop(weight []float64) int32 {
	if len(h.list) == 0 {
		return -1
	}
	top, lastOne := h.list[0], h.list[len(h.list)-1]
	h.list = h.list[:len(h.list)-1]
	h.at[top] = -1
	if len(h.list) == 0 {
		return top
	}
	k := 0
	for {
		down := 2*k + 1
		if down >= len(h.list) {
			break
		}
		if down+1 < len(h.list) && weight[h.list[down+1]] > weight[h.list[down]] {
			down++
		}
		if weight[h.list[down]] <= weight[lastOne] {
			break
		}
		h.put(int32(k), h.list[down])
		k = down
	}
	h.put(int32(k), lastOne)
	return top
}
