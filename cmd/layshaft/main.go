// Command layshaft works up one car, from the job file or in the web app: does the clutch hold, does the pedal let
// it go, what must come off, what does it cost.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"

	"github.com/alecthomas/kong"

	"layshaft/workshop"
)

// The exit statuses of every command.
const (
	exitComputed = 0
	exitNo       = 1 // the computed answer is "no", and --check asked to be told so
	exitBadInput = 2
	exitInternal = 3
)

type commands struct {
	Hold     holdCommand          `cmd:"" help:"Does the clutch hold the engine's torque?"`
	Release  releaseCommand       `cmd:"" help:"Does the pedal free the clutch, and where must the stop be set?"`
	Diagnose diagnoseCommand      `cmd:"" help:"Why does it drag, by readings on the car, and must the gearbox come out?"`
	Size     sizeCommand          `cmd:"" help:"Which bores, pedal ratios and hoses let a clutch go with a bearable pedal?"`
	Set      setCommand           `cmd:"" help:"How do rod and stop belong, by readings on the car, and what must be read afterwards?"`
	Shim     shimCommand          `cmd:"" help:"What goes behind a hydraulic release bearing, and does its gap last?"`
	Strip    stripCommand         `cmd:"" help:"What must come off for the wanted work, in which order, in how many hours?"`
	Price    priceCommand         `cmd:"" help:"What does it cost, and what does each option add?"`
	Worth    worthCommand         `cmd:"" help:"Which further jobs are worth doing now, while the way to them is open?"`
	Workup   workupCommand        `cmd:"" help:"All of it for one car, as text, JSON or PDF."`
	Layouts  layoutsCommand       `cmd:"" help:"List the layouts and their jobs."`
	Diary    diaryCommand         `cmd:"" help:"When, on which ramp, by whom; a day that can be promised."`
	Bench    scheduleBenchCommand `cmd:"" name:"schedule-bench" help:"Measure the planner on a project of the public library."`
	Demo     demoCommand          `cmd:"" help:"Look round in the web app of an invented shop."`
	Serve    serveCommand         `cmd:"" help:"The web app on the shop's own data."`
}

// console is where a command reads and writes; tests put buffers here.
type console struct{ out, err io.Writer }

// no is the answer "no" of a command that was asked with --check.
type no struct{ why string }

func (n no) Error() string { return n.why }

func main() { os.Exit(run(os.Args[1:], console{os.Stdout, os.Stderr})) }

func run(args []string, c console) (status int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(c.err, "layshaft: internal fault: %v\nThis is a mistake in the program, not in your file. Please report it with the job file.\n", fault)
			if os.Getenv("LAYSHAFT_TRACE") != "" {
				fmt.Fprintf(c.err, "%s", debug.Stack())
			}
			status = exitInternal
		}
	}()
	var cli commands
	exited := -1
	parser, err := kong.New(&cli, kong.Name("layshaft"), kong.Bind(c), kong.Writers(c.out, c.err), kong.UsageOnError(),
		kong.Description("Works up one car: hold, let go, strip, price."),
		kong.Exit(func(code int) { exited = code; panic(helpShown{}) }))
	if err != nil {
		fmt.Fprintln(c.err, "layshaft:", err)
		return exitInternal
	}
	command, err := parse(parser, args)
	if exited >= 0 {
		return exited
	}
	if err != nil {
		fmt.Fprintln(c.err, "layshaft:", err)
		return exitBadInput
	}
	return report(command.Run(), c)
}

// helpShown unwinds the parser once help was printed.
type helpShown struct{}

func parse(parser *kong.Kong, args []string) (command *kong.Context, err error) {
	defer func() {
		if shown := recover(); shown != nil {
			if _, ok := shown.(helpShown); !ok {
				panic(shown)
			}
		}
	}()
	return parser.Parse(args)
}

// report prints what went wrong and gives the exit status that goes with it.
func report(err error, c console) int {
	var answer no
	switch {
	case err == nil:
		return exitComputed
	case errors.As(err, &answer):
		fmt.Fprintln(c.err, answer.why)
		return exitNo
	case errors.Is(err, workshop.ErrNotSaved):
		fmt.Fprintln(c.err, "layshaft:", err)
		return exitInternal
	}
	fmt.Fprintln(c.err, err)
	return exitBadInput
}
