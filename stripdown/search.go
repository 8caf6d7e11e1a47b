package stripdown

import (
	"context"
	"math"
)

// answer is what is known of a problem: a set of operations with its cost, if one was found within the limit,
// and what no set can cost less than.
type answer struct {
	ops   bitset // by number in the graph, which is by name; nil if none was found within the limit
	cost  int64
	least int64
}

// better returns the cheaper of two answers, and of two that cost the same the one whose names come first.
func better(a, b answer) answer {
	switch {
	case b.ops == nil:
		return a
	case a.ops == nil, b.cost < a.cost, b.cost == a.cost && b.ops.before(a.ops):
		return b
	}
	return a
}

// search is a branch and bound over one graph. It keeps what it has learnt from problem to problem.
type search struct {
	ctx     context.Context
	size    int // operations in the graph
	nodes   int
	stopped bool
	met     map[string]*problem // by key
}

func newSearch(ctx context.Context, size int) *search {
	return &search{ctx: ctx, size: size, met: make(map[string]*problem)}
}

// within finds the best answer to a problem that costs no more than limit.
func (s *search) within(p *problem, limit int64) answer { return s.reduced(p, nil, limit) }

// reduced finds the best answer that costs no more than limit and takes no barred place.
func (s *search) reduced(p *problem, barred bitset, limit int64) answer {
	certain, parts, ok := p.reduce(barred)
	if !ok {
		return answer{least: math.MaxInt64}
	}
	whole := answer{ops: newBitset(s.size)}
	for _, v := range certain {
		whole.ops.add(p.ops[v])
		whole.cost += p.cost[v]
	}
	whole.least = whole.cost
	for i, part := range parts {
		parts[i] = s.known(part)
		whole.least += parts[i].bound().least
	}
	for _, part := range parts {
		if whole.least > limit {
			return answer{least: whole.least}
		}
		others := whole.least - part.bound().least
		got := s.part(part, limit-others)
		whole.least = others + got.least
		if got.ops == nil {
			return answer{least: whole.least}
		}
		whole.cost += got.cost
		whole.ops.union(got.ops)
	}
	if whole.cost > limit {
		return answer{least: whole.least}
	}
	return whole
}

// known returns the part that was met before in the place of one that is equal to it.
func (s *search) known(p *problem) *problem {
	key := p.key()
	if twin, ok := s.met[key]; ok {
		return twin
	}
	s.met[key] = p
	return p
}

// part finds the best answer to a problem that cannot be reduced, unless it has been found before; then it may
// cost more than limit.
func (s *search) part(p *problem, limit int64) answer {
	best := p.best
	if best.ops == nil && best.least <= limit {
		best = s.branch(p, limit)
		if !s.stopped {
			p.best = best
		}
	}
	return best
}

// branch encloses the answer, bars what cannot be in it, and otherwise tries an operation in and out.
func (s *search) branch(p *problem, limit int64) answer {
	s.nodes++
	b := p.bound()
	if b.least > limit {
		return answer{least: b.least}
	}
	var best answer
	if b.cost <= limit {
		best = answer{ops: p.numbers(b.plan, s.size), cost: b.cost}
		limit = b.cost
	}
	best.least = b.least
	if s.stopped = s.stopped || s.ctx.Err() != nil; s.stopped {
		return best
	}
	if barred := p.hopeless(limit); barred != nil {
		best = better(best, s.reduced(p, barred, limit))
	} else {
		best = s.inAndOut(p, best, limit)
	}
	switch {
	case s.stopped:
		best.least = b.least
	case best.ops == nil:
		best.least = limit + 1
	default:
		best.least = best.cost
	}
	return best
}

// inAndOut tries the problem with an operation and without it.
func (s *search) inAndOut(p *problem, best answer, limit int64) answer {
	b := p.bound()
	tied := b.least == limit
	v := p.contested()
	if tied {
		v = p.firstName()
	}
	in := s.reduced(p.with(v), nil, limit)
	best = better(best, in)
	if in.ops != nil && tied {
		return best // nothing is cheaper, and no set without the first name comes before it
	}
	if in.ops != nil {
		limit = in.cost
	}
	out := newBitset(len(p.ops))
	out.add(v)
	return better(best, s.reduced(p, out, limit))
}
