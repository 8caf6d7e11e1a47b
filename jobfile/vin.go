package jobfile

import (
	"fmt"
	"strings"
)

// vinProblem says what is wrong with a vehicle identification number, or nothing. Only the length and the
// characters of ISO 3779 are held against it: the check digit is used in North America alone, and cars from before
// 1981 have shorter numbers.
func vinProblem(vin string) string {
	if len(vin) > 17 {
		return fmt.Sprintf("a vehicle identification number has 17 characters, this one has %d", len(vin))
	}
	for _, c := range vin {
		switch {
		case strings.ContainsRune("IOQioq", c):
			return fmt.Sprintf("%q does not occur in a vehicle identification number: it is too easily read as 1 or 0", c)
		case (c < '0' || c > '9') && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z'):
			return fmt.Sprintf("%q does not occur in a vehicle identification number: letters and digits only", c)
		}
	}
	return ""
}
