package dyno

import (
	"errors"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"layshaft/quantity"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Abs(want) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

func mustParse(t *testing.T, text string) Run {
	t.Helper()
	run, err := Parse("run.csv", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return run
}

func TestHeadingsAndUnitsOfTheTradeAreUnderstood(t *testing.T) {
	const omega = 4000 * 2 * math.Pi / 60
	for name, c := range map[string]struct {
		text   string
		torque float64 // at 4000 rpm, N m
	}{
		"brackets":           {"rpm, power (bhp), torque (N m)\n3000, 160.1, 380\n4000, 232.2, 413.4\n", 413.4},
		"square brackets":    {"engine speed [1/min]; P [kW]\n3000;120\n4000;170\n", 170e3 / omega},
		"German comma":       {"engine speed [1/min]; P [kW]\n3000;120,5\n4000;170,25\n", 170.25e3 / omega},
		"quoted commas":      {"rpm,torque (N m)\n\"3000\",\"300,1\"\n4000,\"320,25\"\n", 320.25},
		"underscores":        {"rpm,torque_nm\n3000,300\n4000,320\n", 320},
		"long underscores":   {"engine_speed_rpm,engine_torque_lb_ft\n3000,300\n4000,320\n", 320 * 1.3558179483314003},
		"bare units":         {"RPM\tkW\n3000\t100\n4000\t150\n", 150e3 / omega},
		"unit after name":    {"Engine RPM,Torque lb-ft\n3000,300\n4000,320\n", 320 * 1.3558179483314003},
		"slash":              {"n / min-1;M / Nm\n3000;300\n4000;320\n", 320},
		"row of units":       {"Engine Speed,Power,Boost\nrpm,PS,bar\n3000,150,1.1\n4000,200,1.2\n", 200 * 735.49875 / omega},
		"bracketed units":    {"Engine Speed;Torque\n[1/min];[Nm]\n3000;300\n4000;320\n", 320},
		"byte order mark":    {"\ufeffrpm,torque (Nm)\n3000,300\n4000,320\n", 320},
		"carriage returns":   {"rpm,torque (Nm)\r\n\r\n3000,300\r\n4000,320\r\n", 320},
		"old line ends":      {"rpm,torque (Nm)\r3000,300\r4000,320\r", 320},
		"trailing commas":    {"rpm,torque (Nm)\n3000,300,\n4000,320,,\n", 320},
		"time is not torque": {"t (s),n (rpm),T (kgf m)\n0,3000,30\n1,4000,32\n", 32 * 9.80665},
		"speed of the rolls": {"wheel speed (rpm),speed (rpm),torque (Nm)\n300,3000,300\n400,4000,320\n", 320},
		"radians":            {"speed (rad/s),torque (Nm)\n300,300\n418.8790204786391,320\n", 320},
		"exponents":          {"rpm,torque (Nm)\n3e3,3.0E+2\n4e3,3.2e2\n", 320},
	} {
		run, err := Parse("run.csv", []byte(c.text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		near(t, name+": speed", run.Omega[1], omega)
		near(t, name+": torque", run.Torque[1], c.torque)
	}
}

func TestFaultsSayWhereAndWhat(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"empty":           {"", `run.csv: the file is empty; it needs a row of column names and rows of figures`},
		"blank":           {"\n , \n", `run.csv: the file is empty; it needs a row of column names and rows of figures`},
		"heading only":    {"rpm,torque (Nm)\n", `run.csv:1: one row only; a run needs a row of column names and at least two of figures`},
		"units only":      {"rpm,torque\nrpm,Nm\n", `run.csv:2: no figures below the units`},
		"one row":         {"rpm,torque (Nm)\n3000,300\n", `run.csv:2: one row of figures only; a run needs at least two`},
		"no unit":         {"rpm,torque\n3000,300\n4000,320\n", `run.csv:1: torque: no unit; write for example "torque (N m)", or put a row of units below the names`},
		"odd unit":        {"rpm,power (GW)\n3000,300\n4000,320\n", `run.csv:1: power: "GW" is not a unit of power known here; write for example "power (kW)"`},
		"other unit":      {"rpm,torque (kW)\n3000,300\n4000,320\n", `run.csv:1: torque: "kW" is not a unit of torque known here; write for example "torque (N m)"`},
		"two units":       {"rpm,torque (Nm)\nrpm,lbft\n3000,300\n4000,320\n", `run.csv:2: torque: the unit "lbft" is not the "Nm" of the heading`},
		"two torques":     {"rpm,torque (Nm),wheel torque (Nm)\n3000,300,1\n4000,320,1\n", `run.csv:1: wheel torque: a second column of torque beside "torque"; keep the one that was measured where the job says`},
		"no speed":        {"time,torque (Nm)\n1,300\n2,320\n", `run.csv:1: no column of engine speed; name one for example "rpm"`},
		"speed alone":     {"rpm,boost\n3000,1\n4000,1\n", `run.csv:1: neither power nor torque; name a column for example "torque (N m)"`},
		"duplicate speed": {"rpm,torque (Nm)\n3000,300\n\n3000,320\n", `run.csv:4: rpm: 3000 is the same speed as on line 2; keep one of the two rows`},
		"falling speed":   {"rpm,torque (Nm)\n3000,300\n2990,320\n", `run.csv:3: rpm: 2990 falls below the 3000 of line 2; keep only the pull, where the speed rises`},
		"standing":        {"rpm,torque (Nm)\n0,300\n2990,320\n", `run.csv:2: rpm: 0 rpm is not a speed that an engine is measured at (100 to 30000 rpm)`},
		"point parts thousands": {"rpm;torque (Nm)\n3.500;300\n4.000;320\n",
			`run.csv:2: rpm: 3.500 rpm is not a speed that an engine is measured at (100 to 30000 rpm)`},
		"NaN":      {"rpm,torque (Nm)\n3000,NaN\n4000,320\n", `run.csv:2: torque: "NaN" is not a number`},
		"infinite": {"rpm,torque (Nm)\n3000,1e999\n4000,320\n", `run.csv:2: torque: "1e999" is too large`},
		"negative": {"rpm,torque (Nm)\n3000,-3\n4000,320\n", `run.csv:2: torque: -3 is negative; keep only the pull, where the engine drives`},
		"gap":      {"rpm,torque (Nm)\n3000\n4000,320\n", `run.csv:2: torque: no figure; fill it in or take the row out`},
		"word":     {"rpm,torque (Nm)\n3000,300\nmaximum,320\n", `run.csv:3: rpm: "maximum" is not a number`},
		"decimal commas between commas": {"rpm,torque (Nm)\n3000,300,5\n4000,320,5\n",
			`run.csv:2: 3 cells under 2 column names; if these are decimal commas, write decimal points or part the columns by semicolons`},
		"ambiguous comma": {"rpm;torque (Nm)\n3000;300\n4000;320,125\n",
			`run.csv:3: torque: "320,125" may have a decimal comma or one that parts thousands; write a decimal point and no other mark`},
		"point and comma": {"rpm;torque (Nm)\n3000;1.300,5\n4000;1.320,5\n",
			`run.csv:2: torque: "1.300,5" may have a decimal comma or one that parts thousands; write a decimal point and no other mark`},
		"points and commas": {"rpm;torque (Nm)\n3000;300.5\n4000;320,5\n",
			`run.csv:3: torque: "320,5" may have a decimal comma or one that parts thousands; write a decimal point and no other mark`},
		"bad bytes": {"rpm,torque (Nm)\n3000,300\n\xff4000,320\n", `run.csv:3: not UTF-8 text; save the file as UTF-8`},
		"UTF-16":    {"\xff\xfer\x00p\x00m\x00", `run.csv:1: the file is UTF-16 text; save it as UTF-8`},
		"quotes":    {"rpm,torque (Nm)\n3000,\"300\n4000,320\n", `quotation marks are not in pairs around a cell`},
		"too large": {strings.Repeat(" ", maxSize+1), `run.csv: 4194305 bytes are more than the 4194304 a run may have; cut it down to one pull`},
	} {
		_, err := Parse("run.csv", []byte(c.text))
		var fault *Error
		if !errors.As(err, &fault) {
			t.Errorf("%s: %v", name, err)
		} else if !strings.HasSuffix(err.Error(), c.want) {
			t.Errorf("%s:\n got %s\nwant %s", name, err, c.want)
		}
	}
}

func TestPowerAndTorqueMustAgree(t *testing.T) {
	for name, c := range map[string]struct {
		text, want string
	}{
		"one bad row": {"rpm,power (kW),torque (Nm)\n3000,94.2,300\n4000,134.0,420\n5000,157.1,300\n",
			`run.csv:3: torque: 420 N m at 4000 rpm is 175.9 kW, but the power column says 134.0 kW (24 % apart): one of the two columns is wrong; take it out`},
		"wheel torque": {"rpm,power (kW),torque (Nm)\n3000,94.2,1200\n4000,125.7,1200\n",
			`torque times speed is 4 times the power on every line; it looks like wheel torque not referred to the engine: divide it by gear and axle ratio, or take the column out`},
		"unit slip": {"rpm,power (kW),torque (lbft)\n3000,94.2,300\n4000,125.7,300\n",
			`torque times speed is 1.36 times the power on every line; it looks like N m and lbf ft, or kW and horsepower, taken for each other`},
		"wheels and crank": {"rpm,power (kW),torque (Nm)\n3000,94.2,250\n4000,125.7,250\n",
			`torque times speed is 0.833 times the power on every line; it looks like one measured at the wheels and the other at the crank; take one out`},
		"no power": {"rpm,power (kW),torque (Nm)\n3000,0,250\n4000,0,250\n", `take the column out`},
	} {
		_, err := Parse("run.csv", []byte(c.text))
		if err == nil || !strings.HasSuffix(err.Error(), c.want) {
			t.Errorf("%s:\n got %v\nwant %s", name, err, c.want)
		}
	}
}

func TestRoundedFiguresStillAgree(t *testing.T) {
	// 12 N m at 1000 rpm is 1.257 kW, written as 1: a fifth off, but by rounding alone.
	run := mustParse(t, "rpm,power (kW),torque (Nm)\n1000,1,12\n4000,126,300\n")
	if run.Torque[0] != 12 {
		t.Errorf("torque %v", run.Torque)
	}
}

func TestNotesTellHowTheFileWasUnderstood(t *testing.T) {
	run := mustParse(t, "rpm,wheel power (whp),boost (bar),AFR\n3000,150,1,12\n4000,200,1,12\n")
	for _, want := range []string{
		"wheel power: horsepower taken as mechanical, 745.7 W",
		"wheel power: the heading says that it was measured at the wheels",
		"columns not used: boost (bar), AFR",
		"torque worked out from power and engine speed",
	} {
		if !slices.Contains(run.Notes, want) {
			t.Errorf("note %q is missing from %q", want, run.Notes)
		}
	}
	if notes := mustParse(t, "rpm,torque (Nm)\n3000,150\n4000,200\n").Notes; len(notes) != 0 {
		t.Errorf("notes without cause: %q", notes)
	}
}

func TestWrittenRunsAreReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rows := rapid.SliceOfNDistinct(rapid.IntRange(500, 9000), 2, 40, rapid.ID[int]).Draw(rt, "rpm")
		slices.Sort(rows)
		mark := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(rt, "separator")
		var b strings.Builder
		fmt.Fprintf(&b, "rpm%spower (kW)%storque (N m)\n", mark, mark)
		var torques []float64
		for _, rpm := range rows {
			torque := rapid.Float64Range(1, 900).Draw(rt, "torque")
			torques = append(torques, torque)
			power := torque * quantity.From(float64(rpm), "rpm") / 1000
			fmt.Fprintf(&b, "%d%s%.6f%s%.9f\n", rpm, mark, power, mark, torque)
		}
		run, err := Parse("run.csv", []byte(b.String()))
		if err != nil {
			rt.Fatal(err)
		}
		for i, want := range torques {
			if math.Abs(run.Torque[i]-want) > 1e-8 {
				rt.Fatalf("row %d: %v, want %v", i, run.Torque[i], want)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"rpm, power (bhp), torque (N m)\n3000, 160.1, 380\n4000, 232.2, 413.4\n",
		"engine speed [1/min]; P [kW]\n3000;120,5\n4000;170,25\n",
		"Engine Speed,Power\nrpm,PS\n3000,150\n4000,200\n",
		"\ufeffrpm\tNm\r3000\t300\r4000\t320", "\"\n", "()[],;\t", "rpm\n(\n", "\xff\xfe",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		run, err := Parse("run.csv", data)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "run.csv:") {
				t.Fatalf("an error that does not name the file: %v", err)
			}
			return
		}
		if _, err := run.Curve(); err != nil {
			t.Fatalf("a run that is no curve: %v", err)
		}
		if slices.Min(run.Torque) < 0 {
			t.Fatal("a negative torque was taken")
		}
	})
}

func BenchmarkParse(b *testing.B) {
	var text strings.Builder
	text.WriteString("rpm,power (kW),torque (N m)\n")
	for rpm := 2000; rpm < 7000; rpm += 5 {
		fmt.Fprintf(&text, "%d,%.3f,400\n", rpm, 400*float64(rpm)*math.Pi/30000)
	}
	data := []byte(text.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Parse("run.csv", data); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleParse() {
	data, err := os.ReadFile("testdata/pull.csv")
	if err != nil {
		panic(err)
	}
	run, err := Parse("pull.csv", data)
	if err != nil {
		panic(err)
	}
	curve, err := run.Curve()
	if err != nil {
		panic(err)
	}
	omega, torque := curve.Peak()
	fmt.Println(quantity.Format(torque, "N m", 1), "at", quantity.Format(omega, "rpm", 0))
	for _, note := range run.Notes {
		fmt.Println(note)
	}
	// Output:
	// 472.8 N m at 4500 rpm
	// power: horsepower taken as mechanical, 745.7 W
	// columns not used: time (s), boost (bar)
	// power agrees with torque times speed, at worst to 0.01 % (line 11)
}
