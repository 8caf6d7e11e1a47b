package release

import "fmt"

// Point is one position of the pedal on its map.
type Point struct {
	Pedal    float64 // travel at the pad, m
	Finger   float64 // finger travel, m
	Effort   float64 // at the pad, N
	Pressure float64 // gauge, in the line, Pa
	Torque   float64 // that the clutch carries, N m
}

// Map is the pedal map: points positions evenly from the pedal's rest to its full travel, pressed down. Where the
// pedal snaps through, the fingers jump between two of them. Past the last load point the fingers are held there.
func (c *Chain) Map(points int) []Point {
	s := c.statics()
	return c.draw(s.pressing(), points, c.System.Pedal.Travel)
}

// MapBack is the same with the pedal let up from its full travel. It differs from Map only where the pedal snaps
// through.
func (c *Chain) MapBack(points int) []Point {
	s := c.statics()
	travel := c.System.Pedal.Travel
	full := s.pressing().at(c.System.Pedal.rodTravel(travel))
	return c.draw(s.lettingUp(full.finger), points, travel)
}

func (c *Chain) draw(p *path, points int, travel float64) []Point {
	if points < 2 {
		panic(fmt.Sprintf("release: a pedal map needs 2 points or more, not %d", points))
	}
	drawn := make([]Point, points)
	for i := range drawn {
		drawn[i] = c.point(p, travel*float64(i)/float64(points-1))
	}
	return drawn
}

func (c *Chain) point(p *path, pad float64) Point {
	rod := c.System.Pedal.rodTravel(pad)
	at := p.at(rod)
	return Point{
		Pedal:    pad,
		Finger:   at.finger,
		Effort:   c.System.Pedal.effort(pad, at.load*p.forcePerLoad),
		Pressure: at.load * p.pressurePerLoad,
		Torque:   c.Clutch.Carried(at.finger),
	}
}
