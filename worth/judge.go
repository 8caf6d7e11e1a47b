package worth

// Interval holds a figure with a stated chance.
type Interval struct{ Low, High float64 }

// Verdict is what records say of doing a job now.
type Verdict string

const (
	Pays       Verdict = "pays"
	DoesNotPay Verdict = "does not pay"
	TooFew     Verdict = "too few records to tell"
	NoRecords  Verdict = "no records yet"
)

// Judge holds the interval of the chance of need against the break-even chance. Where the interval straddles it, the
// records are too few to tell.
func Judge(breakEven float64, chance Interval) Verdict {
	if certain := Unrecorded(breakEven); certain != NoRecords {
		return certain
	}
	switch {
	case chance.Low > breakEven:
		return Pays
	case chance.High < breakEven:
		return DoesNotPay
	}
	return TooFew
}

// Unrecorded is the verdict without any records: sure only where no chance could change it.
func Unrecorded(breakEven float64) Verdict {
	switch {
	case breakEven <= 0:
		return Pays
	case breakEven >= 1:
		return DoesNotPay
	}
	return NoRecords
}
