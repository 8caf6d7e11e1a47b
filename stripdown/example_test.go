package stripdown_test

import (
	"fmt"
	"strings"

	"layshaft/stripdown"
)

// A small invented car: the gearbox comes down behind a subframe or past half of the propshaft, and two jobs sit
// behind it.
func smallCar() ([]stripdown.Operation, []stripdown.Job) {
	ops := []stripdown.Operation{
		{Name: "battery", Off: 0.1, On: 0.1, Place: "engine bay", Condition: true, Cautions: []string{"negative off first, on last"}},
		{Name: "intake", Off: 0.2, On: 0.3, Place: "engine bay", Needs: []string{"battery"}},
		{Name: "raise", Off: 0.1, On: 0.1, Place: "under the car", Condition: true, Cautions: []string{"nobody under it until it stands on its locks"}},
		{Name: "undertray", Off: 0.1, On: 0.2, Place: "under the car", Needs: []string{"raise"}},
		{Name: "propshaft", Off: 0.3, On: 0.4, Place: "under the car", Needs: []string{"undertray"}, SingleUse: []string{"coupling bolts x6"}},
		{Name: "subframe", Off: 1.1, On: 1.3, Place: "under the car", Needs: []string{"undertray"}},
		{
			Name: "gearbox", Off: 1.2, On: 1.5, Place: "under the car", People: 2,
			Needs: []string{"intake"}, AnyOf: [][]string{{"subframe", "propshaft"}},
			Fluids: []string{"gear oil"}, Tighten: []string{"housing bolts: those nearest the dowels first"},
			Cautions: []string{"on a gearbox jack and strapped; the balance of the car shifts as it comes away"},
		},
	}
	jobs := []stripdown.Job{
		{Name: "replace-clutch", Work: 0.9, Needs: []string{"gearbox"}},
		{Name: "rear-main-seal", Work: 0.6, Needs: []string{"gearbox"}},
		{Name: "subframe-bushes", Work: 1.5, Needs: []string{"subframe"}},
	}
	return ops, jobs
}

func ExampleGraph_Plan() {
	g, err := stripdown.New(smallCar())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, jobs := range [][]string{
		{"replace-clutch", "rear-main-seal"},
		{"replace-clutch", "subframe-bushes"},
	} {
		plan, err := g.Plan(jobs)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("together %v h, apart %v h, saved %v h, proven %v\n", plan.Together, plan.Apart, plan.Saved, plan.Proven)
		for _, job := range plan.Jobs {
			fmt.Printf("  %s: alone %v h, adds %v h\n", job.Name, job.Alone, job.Adds)
		}
		fmt.Println("  off:", strings.Join(plan.Off, ", "))
		fmt.Println("  new:", plan.SingleUse, "lost:", plan.Fluids, "people:", plan.People)
	}
	// Output:
	// together 6.1 h, apart 10.7 h, saved 4.6 h, proven true
	//   replace-clutch: alone 5.5 h, adds 0.9 h
	//   rear-main-seal: alone 5.2 h, adds 0.6 h
	//   off: battery, intake, raise, undertray, propshaft, gearbox
	//   new: [{propshaft coupling bolts x6}] lost: [gear oil] people: 2
	// together 8.7 h, apart 9.9 h, saved 1.2 h, proven true
	//   replace-clutch: alone 5.5 h, adds 4.3 h
	//   subframe-bushes: alone 4.4 h, adds 3.2 h
	//   off: battery, intake, raise, undertray, subframe, gearbox
	//   new: [] lost: [gear oil] people: 2
}

func ExampleNew_fault() {
	ops, jobs := smallCar()
	jobs[0].Needs = []string{"gear-box"}
	_, err := stripdown.New(ops, jobs)
	fmt.Println(err)
	// Output:
	// job "replace-clutch" needs "gear-box", which is unknown; did you mean "gearbox"?
}
