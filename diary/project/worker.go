package project

// worker looks in two ways: it breeds plans, and it proves. The first worker proves more the closer the plan is to
// the bound, as proofs far away from it do not come to an end; the others breed.
type worker struct {
	*genetic
	prover *prover // of the first worker only
	lower  int32
	turn   int
	heard  int32
}

const (
	breedRound   = 400 // plans built in one round of breeding
	proveRound   = 120 // conflicts in one round of proving
	smallProject = 40  // up to this size, always prove
)

func newWorker(in *instance, seed uint64, number int) *worker {
	w := &worker{genetic: newGenetic(in, seed), heard: in.horizon + 1}
	if number == 0 {
		w.prover = newProver(in)
	}
	return w
}

// begin makes the first plan, so that there is one whatever happens.
func (w *worker) begin() { w.newcomer() }

// hear takes over a better plan and bound from the others.
func (w *worker) hear(start []int32, end, lower int32) {
	w.lower = max(w.lower, lower)
	if end < w.best.end {
		w.adopt(start, end)
	}
	if w.prover != nil && end < w.prover.upper {
		w.prover.noteUpper(start, end)
	}
}

// round is one piece of work, a few milliseconds.
func (w *worker) round() {
	w.turn++
	if w.prover != nil && w.proves() {
		w.prove()
		return
	}
	w.step(breedRound)
}

func (w *worker) proves() bool {
	gap := float64(w.best.end-w.lower) / float64(w.lower+1)
	switch {
	case w.turn == 1: // breed first
		return false
	case w.n <= smallProject || gap < 0.06:
		return w.turn%8 != 0
	case gap < 0.15:
		return w.turn%4 == 0
	}
	return w.turn%16 == 0
}

// prove asks in turn whether there is a plan that ends at the bound, and one that is better by one.
func (w *worker) prove() {
	p := w.prover
	limit := w.lower
	if w.turn%2 == 1 {
		limit = w.best.end - 1
	}
	if limit < w.lower || limit >= w.best.end {
		return
	}
	switch p.search(limit, proveRound) {
	case found:
		w.adopt(p.plan, p.upper)
	case impossible:
		w.lower = max(w.lower, limit+1)
	}
	w.lower = max(w.lower, min(p.provenEnd(), w.best.end))
}
