package quantity_test

import (
	"fmt"

	"layshaft/quantity"
)

// One horsepower is 745.69987158227022 W and one inch 25.4 mm: NIST SP 811, appendix B (from memory).
func ExampleParse() {
	bore, _ := quantity.Parse("5/8 in", quantity.Length)
	power, _ := quantity.Parse("1 hp", quantity.Power)
	fmt.Println(bore, power)

	_, err := quantity.Parse("9.8", quantity.Force)
	fmt.Println(err)
	_, err = quantity.Parse("9.8 kg", quantity.Force)
	fmt.Println(err)
	// Output:
	// 0.015875 745.6998715822702
	// "9.8" has no unit; write for example 9.8 kN
	// "9.8 kg" is a mass, and a force is wanted (did you mean kgf?); write for example 9.8 kN
}

func ExampleParseValue() {
	friction, _ := quantity.ParseValue("0.26 .. 0.30", quantity.Number)
	travel, _ := quantity.ParseValue("148 ± 1 mm", quantity.Length)
	fmt.Println(friction)
	fmt.Println(quantity.FormatValue(travel, "in", 3))
	// Output:
	// 0.26 .. 0.3
	// 5.827 +- 0.039 in
}

func ExampleNice() {
	fmt.Println(quantity.Nice(520.634, "lb ft", 3))
	// Output: 384 lb ft
}
