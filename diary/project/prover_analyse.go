package project

// analyse turns the conflict into a clause whose first literal alone is of the current level, and tells the level to
// go back to (first unique implication point: Marques-Silva, Sakallah 1999). At level 0 there is none: unsolvable.
func (p *prover) analyse() (back int32, solvable bool) {
	level := p.highest()
	if level == 0 {
		return 0, false
	}
	p.back(level) // the conflict may lie below the latest decision
	p.asked = p.asked[:0]
	open := 0
	ask := func(l literal) { open += p.ask(l, level) }
	for _, l := range p.conflict {
		ask(l)
	}
	scratch := p.learnt[:0]
	at := int32(len(p.trail)) - 1
	for {
		for p.need[p.trail[at].half] == absent || p.position[p.trail[at].half] != at {
			at--
		}
		if open == 1 {
			break
		}
		e := &p.trail[at]
		l := literal{e.half, p.need[e.half]}
		p.need[e.half] = absent
		open--
		scratch = p.explain(scratch[:0], e.reason, l)
		if e.reason.kind == byClause {
			p.clauses[e.reason.a].activity += float32(p.increment)
		}
		for _, x := range scratch {
			ask(x)
		}
		at--
	}
	p.learnt = scratch[:0]
	first := p.trail[at].half
	p.learnt = append(p.learnt, literal{first, p.need[first]}.denied())
	back = p.collect(first, level)
	for _, h := range p.asked {
		p.need[h], p.listed[h] = absent, false
	}
	return back, true
}

// highest is the highest level of the literals in the conflict.
func (p *prover) highest() (level int32) {
	for _, l := range p.conflict {
		if at := p.entryOf(l); at >= 0 {
			level = max(level, p.trail[at].level)
		}
	}
	return level
}

// entryOf is the entry that made the literal true, -1 if it was so from the beginning.
func (p *prover) entryOf(l literal) int32 {
	at := p.last[l.half]
	for at >= 0 && p.trail[at].before >= l.least {
		at = p.trail[at].previous
	}
	return at
}

// ask adds a literal to the conflict, and tells by how many the open ones of the current level rise.
func (p *prover) ask(l literal, level int32) (more int) {
	if p.need[l.half] >= l.least {
		return 0
	}
	at := p.entryOf(l)
	if at < 0 || p.trail[at].level == 0 {
		return 0
	}
	if p.need[l.half] == absent {
		if !p.listed[l.half] {
			p.listed[l.half] = true
			p.asked = append(p.asked, l.half)
			p.bump(l.half >> 1)
		}
		if p.trail[at].level == level {
			more = 1
		}
	} else if p.trail[at].level == level && p.trail[p.position[l.half]].level < level {
		more = 1
	}
	p.need[l.half], p.position[l.half] = l.least, at
	return more
}

// collect appends the literals of lower levels that no others of them imply, the one of the highest level second,
// and tells that level.
func (p *prover) collect(first, level int32) (back int32) {
	for _, h := range p.asked {
		if h == first || p.need[h] == absent {
			continue
		}
		at := p.position[h]
		if p.trail[at].level == level || p.implied(at, h) {
			continue
		}
		p.learnt = append(p.learnt, literal{h, p.need[h]}.denied())
		if l := p.trail[at].level; l > back {
			back = l
			k := len(p.learnt) - 1
			p.learnt[1], p.learnt[k] = p.learnt[k], p.learnt[1]
		}
	}
	return back
}

// implied tells whether all that made the entry is asked for anyway.
func (p *prover) implied(at, h int32) bool {
	e := &p.trail[at]
	if e.reason.kind == decided {
		return false
	}
	p.conflict = p.explain(p.conflict[:0], e.reason, literal{h, p.need[h]})
	for _, l := range p.conflict {
		if l.half != h && p.need[l.half] >= l.least {
			continue
		}
		if at := p.entryOf(l); at >= 0 && p.trail[at].level > 0 {
			return false
		}
	}
	return true
}

func (p *prover) bump(i int32) {
	p.activity[i] += p.increment
	p.heap.raised(i, p.activity)
}

// cool makes earlier conflicts count less.
func (p *prover) cool() {
	p.increment /= 0.95
	if p.increment < 1e15 {
		return
	}
	for i := range p.activity {
		p.activity[i] *= 1e-15
	}
	for i := range p.clauses {
		p.clauses[i].activity *= 1e-15
	}
	p.increment *= 1e-15
}
