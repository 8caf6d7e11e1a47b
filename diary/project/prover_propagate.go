package project

// propagate follows up all that has changed until nothing more follows. It is false on a conflict.
func (p *prover) propagate() bool {
	for {
		for p.done < len(p.trail) {
			e := p.trail[p.done]
			p.done++
			if !p.follow(e) {
				return false
			}
		}
		if !p.dirty {
			return true
		}
		p.dirty = false
		if !p.lookAtGrid() {
			return false
		}
	}
}

// follow tells the clauses, the linked halves and the grid of one rise.
func (p *prover) follow(e entry) bool {
	p.work++
	if !p.wake(e) {
		return false
	}
	for _, a := range p.links[e.half] {
		if p.value[a.half] < e.value+a.distance && !p.raise(literal{a.half, e.value + a.distance}, reason{byLink, e.half, a.distance}) {
			return false
		}
	}
	p.dirty = true
	if at, over := p.cover(e.half >> 1); over {
		p.conflict = p.crowd(p.conflict[:0], at, -1)
		return false
	}
	return true
}

// cover takes the compulsory part of the activity from the grid: the time in which it runs wherever it starts. It
// tells a time at which more is taken than there is.
func (p *prover) cover(i int32) (at int32, over bool) {
	if i == p.end {
		return 0, false
	}
	now := span{p.latest(i), p.earliest(i) + p.duration[i]}
	old := p.part[i]
	switch {
	case now.from >= now.to || now == old:
		return 0, false
	case old.from >= old.to:
		at, over = p.occupy(i, now)
	default:
		at, over = p.occupy(i, span{now.from, old.from})
		if t, o := p.occupy(i, span{old.to, now.to}); o {
			at, over = t, o
		}
	}
	p.part[i] = now
	return at, over
}

// uncover gives back what the compulsory part has lost.
func (p *prover) uncover(i int32) {
	if i == p.end {
		return
	}
	old := p.part[i]
	if old.from >= old.to {
		return
	}
	now := span{max(old.from, p.latest(i)), min(old.to, p.earliest(i)+p.duration[i])}
	if now.from >= now.to {
		p.vacate(i, old)
		p.part[i] = span{}
		return
	}
	p.vacate(i, span{old.from, now.from})
	p.vacate(i, span{now.to, old.to})
	p.part[i] = now
}

func (p *prover) occupy(i int32, s span) (at int32, over bool) {
	w := p.free.words
	need := p.demand(i)
	for t := s.from; t < s.to; t++ {
		row := p.free.free[int(t)*w : int(t)*w+w]
		for k := range row {
			row[k] -= need[k]
			if row[k]&tops != tops {
				at, over = t, true
			}
		}
	}
	return at, over
}

func (p *prover) vacate(i int32, s span) {
	w := p.free.words
	need := p.demand(i)
	for t := s.from; t < s.to; t++ {
		row := p.free.free[int(t)*w : int(t)*w+w]
		for k := range row {
			row[k] += need[k]
		}
	}
}

// lookAtGrid moves activities on past times at which they do not fit beside the compulsory parts of the others.
func (p *prover) lookAtGrid() bool {
	for i := range int32(p.n) {
		if p.earliest(i) == p.latest(i) || p.duration[i] == 0 {
			continue
		}
		p.work++
		need := p.demand(i)
		for {
			t := p.lastMisfit(p.earliest(i), min(p.earliest(i)+p.duration[i], p.latest(i)), need)
			if t < 0 {
				break
			}
			if !p.push(i, t, literal{2 * i, t - p.duration[i] + 1}, literal{2 * i, t + 1}) {
				return false
			}
		}
		for {
			t := p.firstMisfit(max(p.latest(i), p.earliest(i)+p.duration[i]), p.latest(i)+p.duration[i], need)
			if t < 0 {
				break
			}
			if !p.push(i, t, literal{2*i + 1, -t}, literal{2*i + 1, p.duration[i] - t}) {
				return false
			}
		}
	}
	return true
}

func (p *prover) lastMisfit(from, to int32, need []uint64) int32 {
	if len(need) == 1 {
		x, cells := need[0], p.free.free
		for t := to - 1; t >= from; t-- {
			if (cells[t]-x)&tops != tops {
				return t
			}
		}
		return -1
	}
	for t := to - 1; t >= from; t-- {
		if !p.free.fits(t, need) {
			return t
		}
	}
	return -1
}

func (p *prover) firstMisfit(from, to int32, need []uint64) int32 {
	if len(need) == 1 {
		x, cells := need[0], p.free.free
		for t := from; t < to; t++ {
			if (cells[t]-x)&tops != tops {
				return t
			}
		}
		return -1
	}
	for t := from; t < to; t++ {
		if !p.free.fits(t, need) {
			return t
		}
	}
	return -1
}

// push moves activity i past time t: since it would run at t (the condition) and does not fit there.
func (p *prover) push(i, t int32, condition, then literal) bool {
	from := int32(len(p.made))
	p.made = append(p.crowd(p.made, t, i), condition)
	return p.raise(then, reason{byGrid, from, int32(len(p.made))})
}

// crowd appends why there is no room at time t, for activity i beside the others or, with i = -1, for all that must
// run then: enough of them to be too many of one resource.
func (p *prover) crowd(to []literal, t, i int32) []literal {
	r, surplus := p.scarce(t, i)
	for j := range int32(p.n) {
		s := p.part[j]
		if j == i || s.from > t || s.to <= t {
			continue
		}
		held := amount(p.demand(j), r)
		if held <= surplus {
			surplus -= held
			continue
		}
		to = append(to, literal{2 * j, t - p.duration[j] + 1}, literal{2*j + 1, -t})
	}
	return to
}

// scarce finds the resource that is short at time t, and by how much more than one.
func (p *prover) scarce(t, i int32) (resource int, surplus int32) {
	best := int32(-1)
	for r := range p.problem.Capacities {
		row := p.free.free[int(t)*p.free.words:]
		short := int32(tops>>48) - int32(row[r/4]>>(laneBits*(r%4))&0xffff)
		if i >= 0 {
			short += amount(p.demand(i), r)
		}
		if short > 0 && short-1 > best {
			resource, best = r, short-1
		}
	}
	if best < 0 {
		panic("project: nothing is short where something did not fit")
	}
	return resource, best
}
