package project

import (
	"cmp"
	"slices"
)

// clause is a set of literals of which one must hold. The first two are watched.
type clause struct {
	literals []literal
	levels   int32 // how many levels it joined when it was learnt: few is good
	activity float32
}

// watch wakes a clause when the half reaches the value at which a watched literal becomes false.
type watch struct{ at, clause int32 }

func (p *prover) watch(l literal, clause int32) {
	no := l.denied()
	p.watches[no.half] = append(p.watches[no.half], watch{no.least, clause})
}

// wake looks at the clauses of which a watched literal has become false.
func (p *prover) wake(e entry) bool {
	list := p.watches[e.half]
	kept := list[:0]
	for k, w := range list {
		if w.at <= e.before || w.at > e.value {
			kept = append(kept, w)
			continue
		}
		p.work++
		stays, fine := p.visit(e.half, w)
		if stays {
			kept = append(kept, w)
		}
		if !fine {
			kept = append(kept, list[k+1:]...)
			p.watches[e.half] = kept
			return false
		}
	}
	p.watches[e.half] = kept
	return true
}

// visit finds another literal to watch, or makes the last one true.
func (p *prover) visit(half int32, w watch) (stays, fine bool) {
	c := &p.clauses[w.clause]
	ls := c.literals
	if no := ls[0].denied(); no.half == half && no.least == w.at {
		ls[0], ls[1] = ls[1], ls[0]
	}
	if p.isTrue(ls[0]) {
		return true, true
	}
	for k := 2; k < len(ls); k++ {
		if !p.isFalse(ls[k]) {
			ls[1], ls[k] = ls[k], ls[1]
			p.watch(ls[1], w.clause)
			return false, true
		}
	}
	if p.isFalse(ls[0]) {
		p.conflict = p.conflict[:0]
		for _, l := range ls {
			p.conflict = append(p.conflict, l.denied())
		}
		return true, false
	}
	return true, p.raise(ls[0], reason{byClause, w.clause, 0})
}

// forget drops half of the learnt clauses, those that joined many levels and were little used. Only at level 0.
func (p *prover) forget() {
	sorted := make([]int32, len(p.clauses))
	for i := range sorted {
		sorted[i] = int32(i)
	}
	slices.SortStableFunc(sorted, func(a, b int32) int {
		ca, cb := &p.clauses[a], &p.clauses[b]
		if (ca.levels <= 3) != (cb.levels <= 3) {
			return cmp.Compare(min(ca.levels, 4), min(cb.levels, 4))
		}
		return cmp.Compare(cb.activity, ca.activity)
	})
	kept := make([]clause, 0, len(p.clauses))
	for _, k := range sorted[:len(sorted)/2] {
		if c := p.clauses[k]; p.open(c) {
			kept = append(kept, c)
		}
	}
	p.clauses = kept
	for h := range p.watches {
		p.watches[h] = p.watches[h][:0]
	}
	for i := range p.clauses {
		p.watch(p.clauses[i].literals[0], int32(i))
		p.watch(p.clauses[i].literals[1], int32(i))
	}
}

// open tells whether a clause still has something to say at level 0, and puts two literals in front that may be
// watched.
func (p *prover) open(c clause) bool {
	k := 0
	for j, l := range c.literals {
		if p.isTrue(l) {
			return false
		}
		if k < 2 && !p.isFalse(l) {
			c.literals[k], c.literals[j] = c.literals[j], c.literals[k]
			k++
		}
	}
	return k == 2
}
