package project

// outcome is how a search ended.
type outcome uint8

const (
	undecided  outcome = iota // the work ran out
	found                     // a plan that ends by the limit
	impossible                // there is none
)

// search looks for a plan that ends by the limit, for so many conflicts. What it learns holds for any limit.
func (p *prover) search(limit int32, conflicts int64) outcome {
	until := p.conflicts + conflicts
	p.back(0)
	for {
		if !p.propagate() {
			p.conflicts++
			back, solvable := p.analyse()
			if !solvable {
				return impossible
			}
			p.learn(back)
			continue
		}
		if p.level() == 0 && p.earliest(p.end) > limit {
			return impossible
		}
		if p.conflicts >= until {
			p.back(0)
			return undecided
		}
		if p.conflicts >= p.restartAt {
			p.restarts++
			p.restartAt = p.conflicts + p.pause()
			p.back(0)
			if len(p.clauses) > 6000+int(p.restarts)*20 {
				p.forget()
			}
			continue
		}
		if p.level() == 0 {
			p.decide(literal{2*p.end + 1, -limit})
			continue
		}
		if !p.branch() {
			p.takePlan()
			return found
		}
	}
}

// learn adds the clause found and makes its first literal true.
func (p *prover) learn(back int32) {
	levels := p.joined()
	p.back(back)
	p.cool()
	first := p.learnt[0]
	if len(p.learnt) == 1 {
		p.raise(first, reason{byLink, first.half, 0})
		return
	}
	c := int32(len(p.clauses))
	p.clauses = append(p.clauses, clause{literals: append([]literal(nil), p.learnt...), levels: levels, activity: float32(p.increment)})
	p.watch(first, c)
	p.watch(p.learnt[1], c)
	p.raise(first, reason{byClause, c, 0})
}

// joined counts the levels that the learnt clause joins.
func (p *prover) joined() (levels int32) {
	p.count++
	for len(p.counted) <= int(p.level()) {
		p.counted = append(p.counted, 0)
	}
	for _, l := range p.learnt {
		if at := p.entryOf(l.denied()); at >= 0 {
			if level := p.trail[at].level; p.counted[level] != p.count {
				p.counted[level] = p.count
				levels++
			}
		}
	}
	return levels
}

// branch decides about the activity that was most in conflicts; it is false when all starts are settled.
func (p *prover) branch() bool {
	for {
		i := p.heap.pop(p.activity)
		if i < 0 {
			return false
		}
		low, high := p.earliest(i), p.latest(i)
		if low == high {
			continue
		}
		p.heap.push(i, p.activity)
		if s := p.phase[i]; s > low && s < high && p.restarts%2 == 0 {
			p.decide(literal{2*i + 1, -s})
			return true
		}
		p.decide(literal{2*i + 1, -low})
		return true
	}
}

// takePlan notes the plan that the settled starts make.
func (p *prover) takePlan() {
	for i := range p.plan {
		p.plan[i] = p.earliest(int32(i))
	}
	p.noteUpper(p.plan, p.earliest(p.end))
	p.back(0)
}

// noteUpper takes a known plan as the one to beat.
func (p *prover) noteUpper(start []int32, end int32) {
	p.upper = min(p.upper, end)
	copy(p.phase, start)
}

// pause is how many conflicts there are until the next restart (Luby, Sinclair, Zuckerman 1993).
func (p *prover) pause() int64 {
	k := p.restarts + 1
	for {
		size := int64(1)
		for size < k+1 {
			size <<= 1
		}
		if size == k+1 {
			return size / 2 * 100
		}
		k -= size/2 - 1
	}
}

// provenEnd is the earliest end of the project by all that was learnt so far.
func (p *prover) provenEnd() int32 {
	p.back(0)
	return p.earliest(p.end)
}
