package stripdown

import (
	"math"
	"math/bits"
)

// Hours are summed in whole nanohours, so that 0.1 + 0.2 is 0.3 and equal sets cost exactly the same.
const nanohours = 1e9

func fromHours(hours float64) int64 { return int64(math.Round(hours * nanohours)) }

// toHours rounds to a millionth of an hour: three times a third of an hour is one hour again.
func toHours(n int64) float64 { return math.Round(float64(n)/1e3) / 1e6 }

// A cost packs nanohours above a count of operations, so that of two sets with the same hours the one with fewer
// operations is the cheaper. countBits is the room that the count of n operations takes.
func countBits(n int) int { return bits.Len(uint(n)) }

// mostHours is what all hours may come to so that costs of n operations stay inside 63 bits.
func mostHours(n int) float64 { return float64(int64(math.MaxInt64)>>countBits(n)) / 2 / nanohours }
