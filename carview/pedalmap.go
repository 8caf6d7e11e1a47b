package carview

import (
	"fmt"

	"layshaft/picture"
	"layshaft/workshop"
)

// PedalMap lays pairs over one another, the proposed one first: its bite band, window and stop are shown.
func PedalMap(pairs ...*workshop.PairAnswer) picture.PedalMap {
	m := picture.PedalMap{Title: "Pedal map"}
	names := curveNames(pairs)
	for i, pair := range pairs {
		if pair == nil {
			continue
		}
		curve := picture.MapCurve{Name: names[i], Series: picture.Series(min(i, 3))}
		for _, p := range pair.Map {
			curve.Points = append(curve.Points, picture.MapPoint{
				Pedal: float64(p.Pedal), Finger: float64(p.Finger), Effort: float64(p.Effort), Torque: float64(p.Torque), Jump: p.Jump})
		}
		if len(m.Curves) == 0 {
			mark(&m, pair)
			curve.Low, curve.High = band(pair)
		}
		m.Curves = append(m.Curves, curve)
	}
	return m
}

// mark puts one pair's bite band, window and limits on the map.
func mark(m *picture.PedalMap, pair *workshop.PairAnswer) {
	m.Bite = picture.Span{From: float64(pair.BiteEnd), To: float64(pair.BiteStart)}
	if pair.NoWindow == "" {
		m.Window = picture.Span{From: float64(pair.StopMin), To: min(float64(pair.StopMax), float64(pair.PedalTravel))}
		m.Stop = float64(pair.StopRecommended)
	}
	m.FullPedal = float64(pair.PedalTravel)
	m.Freed = float64(pair.FreedFinger)
	if pair.FingerLimit.Known() {
		m.OverTravel = float64(pair.FingerLimit)
	}
	m.Desc = fmt.Sprintf("%s %s: %s. The clutch bites between %s and %s of pedal.", Sentence(PairName(pair.Clutch, pair.Release)),
		pair.Verdict, pair.Why, Measure(pair.BiteEnd, 0, "mm"), Measure(pair.BiteStart, 0, "mm"))
}

func band(pair *workshop.PairAnswer) (low, high []picture.MapPoint) {
	if pair.Sure == nil {
		return nil, nil
	}
	for _, p := range pair.Sure.Band {
		low = append(low, picture.MapPoint{Pedal: float64(p.Pedal), Finger: float64(p.Finger[0]), Effort: float64(p.Effort[0]), Torque: float64(p.Torque[0])})
		high = append(high, picture.MapPoint{Pedal: float64(p.Pedal), Finger: float64(p.Finger[1]), Effort: float64(p.Effort[1]), Torque: float64(p.Torque[1])})
	}
	return low, high
}

// curveNames names pairs by what tells them apart, since a drawing has little room: the release system where all have
// the same clutch, the clutch where all have the same release system.
func curveNames(pairs []*workshop.PairAnswer) []string {
	clutches, releases := map[string]bool{}, map[string]bool{}
	for _, pair := range pairs {
		if pair != nil {
			clutches[pair.Clutch], releases[pair.Release] = true, true
		}
	}
	names := make([]string, len(pairs))
	for i, pair := range pairs {
		switch {
		case pair == nil:
		case len(clutches) == 1 && len(releases) > 1:
			names[i] = pair.Release
		case len(releases) == 1 && len(clutches) > 1:
			names[i] = pair.Clutch
		default:
			names[i] = PairName(pair.Clutch, pair.Release)
		}
	}
	return names
}
