package main

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// demoAddress starts the real demo on a fresh database and returns its address.
func demoAddress(t *testing.T) string {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	site, err := openDemo(ctx, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address, done := make(chan string, 1), make(chan error, 1)
	go func() { done <- site.serve(ctx, listener, io.Discard, func(at string) { address <- at }) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
		if err := site.db.Close(); err != nil {
			t.Error(err)
		}
	})
	return strings.TrimSuffix(<-address, "/")
}

// browser opens a tab of headless Chromium.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("no browser: install the Debian package chromium")
		}
		t.Skip("no browser: install the Debian package chromium to run this test")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-dev-shm-usage", true))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	tab, closeTab := chromedp.NewContext(allocator)
	t.Cleanup(closeTab)
	ctx, cancel := context.WithTimeout(tab, 2*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

func do(t *testing.T, ctx context.Context, actions ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, actions...); err != nil {
		t.Fatal(err)
	}
}

// ask runs a script on the page and returns what it comes to.
func ask[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	answer, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// until waits for a sentence of the page's own script to come true.
func until(t *testing.T, ctx context.Context, what, script string) {
	t.Helper()
	deadline := time.Now().Add(20 * time.Second)
	for {
		if ask[bool](t, ctx, script) {
			return
		}
		if time.Now().After(deadline) {
			t.Fatalf("%s did not come about; the page says %q and %q", what,
				ask[string](t, ctx, `document.querySelector('[data-answer=lead]')?.innerText ?? ''`),
				ask[string](t, ctx, `document.querySelector('#other-faults')?.innerText ?? ''`))
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// typeInto writes a value as a person would, and lets the page know.
func typeInto(t *testing.T, ctx context.Context, name, value string) {
	t.Helper()
	ask[bool](t, ctx, `(() => { const f = document.querySelector('[name="`+name+`"]');
		for (let d = f.closest('details'); d; d = d.parentElement.closest('details')) d.open = true;
		f.focus(); f.value = '`+value+`'; f.dispatchEvent(new Event('input', {bubbles: true})); return true })()`)
}

const leadSays = `document.querySelector('[data-answer=lead]').innerText.includes`

// open goes to a page and waits until its scripts are at work.
func open(t *testing.T, ctx context.Context, address string) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(address))
	until(t, ctx, "the page at work", `document.documentElement.classList.contains('scripted')`)
}

func TestTheMainPathInABrowser(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900), chromedp.Navigate(address+"/"), chromedp.WaitVisible(chromedp.CSS(`a[href="/cars/street-saloon"]`)))
	do(t, ctx, chromedp.Click(chromedp.CSS(`a[href="/cars/street-saloon"]`)), chromedp.WaitVisible(chromedp.CSS(`#head-price`)))
	until(t, ctx, "the page at work", `document.documentElement.classList.contains('scripted')`)
	until(t, ctx, "the first answer", leadSays+`('metal-master frees')`)

	const bore = "figure.release.metal-master.master.bore"
	typeInto(t, ctx, bore, "12.7 mm")
	until(t, ctx, "the verdict for a small master", leadSays+`('metal-master drags')`)

	typeInto(t, ctx, bore, "12.7")
	until(t, ctx, "the sentence at the field", `document.querySelector('[name="`+bore+`"]').getAttribute('aria-invalid') === 'true' && document.body.innerText.includes('has no unit')`)

	typeInto(t, ctx, bore, "17.78 mm")
	until(t, ctx, "the old verdict", leadSays+`('metal-master frees')`)

	before := ask[string](t, ctx, `document.querySelector('#gross').innerText`)
	do(t, ctx, chromedp.Click(chromedp.CSS(`input[name=option]`)))
	until(t, ctx, "the new price", `document.querySelector('#gross').innerText !== '`+before+`'`)

	response, err := http.Get(address + "/cars/street-saloon/paper.pdf")
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	paper, err := io.ReadAll(response.Body)
	if err != nil || !bytes.HasPrefix(paper, []byte("%PDF-")) || len(paper) < 20_000 {
		t.Errorf("the paper is %d bytes beginning %.8q (%v)", len(paper), paper, err)
	}
}

func TestTypedFiguresOutliveAReload(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	open(t, ctx, address+"/cars/street-saloon")
	typeInto(t, ctx, "figure.release.metal-master.master.bore", "13.3 mm")
	until(t, ctx, "an answer to what was typed", leadSays+`('drags')`)
	do(t, ctx, chromedp.Reload(), chromedp.WaitVisible(chromedp.CSS(`#head-price`)))
	until(t, ctx, "the typed figure after the reload",
		`document.querySelector('[name="figure.release.metal-master.master.bore"]').value === '13.3 mm' || document.body.innerText.includes('13.3 mm')`)
}

func TestNothingIsWiderThanAPhoneAndTargetsFitAGlove(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	for _, path := range []string{"/", "/cars/street-saloon", "/cars/new", "/layouts"} {
		do(t, ctx, chromedp.EmulateViewport(390, 844, chromedp.EmulateScale(1)), chromedp.Navigate(address+path), chromedp.WaitReady(chromedp.CSS("body")))
		over := ask[float64](t, ctx, `document.documentElement.scrollWidth - document.documentElement.clientWidth`)
		if over > 0 {
			t.Errorf("%s is %g px wider than a phone", path, over)
		}
	}
	do(t, ctx, chromedp.EmulateViewport(820, 1180), chromedp.Navigate(address+"/cars/street-saloon"), chromedp.WaitVisible(chromedp.CSS(`#head-price`)))
	small := ask[[]string](t, ctx, `[...document.querySelectorAll('button, summary, input:not([type=hidden]):not([type=radio]):not([type=checkbox]), select, label:has(input)')]
			.filter(e => e.offsetParent !== null && !e.closest('svg'))
			.filter(e => { const r = e.getBoundingClientRect(); return r.height > 0 && r.height < 43.5 })
			.map(e => e.tagName + ' ' + (e.innerText || e.name || e.id).slice(0, 40) + ' ' + e.getBoundingClientRect().height)`)
	if len(small) > 0 {
		t.Errorf("too low for a glove: %v", small)
	}
}

func TestDemoKeepsWhatWasEnteredInItsFolder(t *testing.T) {
	folder := t.TempDir()
	for round := range 2 {
		site, err := openDemo(context.Background(), folder)
		if err != nil {
			t.Fatal(err)
		}
		cars, err := site.shop.Cars(context.Background())
		if err != nil || len(cars) < 8 {
			t.Errorf("round %d: %d cars (%v)", round, len(cars), err)
		}
		if err := site.db.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if files, _ := filepath.Glob(filepath.Join(folder, "*")); len(files) == 0 {
		t.Error("the folder is empty")
	}
}

// A part of the answers must be swapped as a whole: the drawing has marks of its own inside.
func TestTheLoadPathStaysWholeWhileFiguresAreTyped(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900))
	open(t, ctx, address+"/cars/street-saloon")
	const count = `document.querySelectorAll('.load-path .wide .part').length`
	before := ask[int](t, ctx, count)
	typeInto(t, ctx, "figure.release.metal-master.master.bore", "12.7 mm")
	until(t, ctx, "the verdict for a small master", leadSays+`('metal-master drags')`)
	if after := ask[int](t, ctx, count); before < 10 || after != before {
		t.Errorf("%d parts were drawn, then %d", before, after)
	}
}

func TestThePedalMapIsReadWithTheKeyboard(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900))
	open(t, ctx, address+"/cars/street-saloon")
	until(t, ctx, "the reading at the stop", `document.querySelector('.reading tbody tr td').innerText === '119 mm'`)
	do(t, ctx, chromedp.Focus(chromedp.CSS(`#map-range`)), chromedp.KeyEvent(kb.Home))
	until(t, ctx, "the reading at rest", `document.querySelector('#map-range')?.getAttribute('aria-valuetext').includes('two-disc with metal-master: pedal 0 mm, fingers 0.0 mm, effort 0 N')`)
	do(t, ctx, chromedp.KeyEvent(kb.End))
	until(t, ctx, "the reading at full pedal", `document.querySelector('.reading tbody').innerText.includes('142 mm')`)
	do(t, ctx, chromedp.KeyEvent(kb.ArrowLeft))
	until(t, ctx, "the reading one step back", `document.querySelector('.reading tbody').innerText.includes('141 mm')`)
	if lines := ask[int](t, ctx, `document.querySelectorAll('.wide .reader line').length`); lines != 3 {
		t.Errorf("%d lines on the three plots", lines)
	}
}

func TestAPickedJobShowsWhatComesOffForIt(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900))
	open(t, ctx, address+"/cars/street-saloon")
	do(t, ctx, chromedp.Focus(chromedp.CSS(`#job-replace-clutch`)), chromedp.KeyEvent(kb.Enter))
	until(t, ctx, "the sentence", `document.querySelector('.says').innerText.includes('operations come off for it')`)
	if n := ask[int](t, ctx, `document.querySelectorAll('.layers .wide .served[data-op]').length`); n < 10 {
		t.Errorf("%d operations are picked out", n)
	}
}

// A form that is sent by Enter in a field would keep figures that somebody only tries.
func TestEnterInAFieldKeepsNothing(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900))
	open(t, ctx, address+"/cars/street-saloon")
	typeInto(t, ctx, "figure.release.metal-master.master.bore", "19.05 mm")
	do(t, ctx, chromedp.KeyEvent(kb.Enter))
	until(t, ctx, "the line of what is not kept", `document.querySelector('#not-kept')?.innerText === '1 figure not kept yet'`)
	if entries := ask[int](t, ctx, `document.querySelectorAll('.entries > li').length`); entries != 3 {
		t.Errorf("%d entries", entries)
	}
	do(t, ctx, chromedp.Click(chromedp.CSS(`#keep`)), chromedp.WaitVisible(chromedp.CSS(`.entered`)))
	until(t, ctx, "the entry", `document.querySelector('.entered')?.innerText.includes('from 17.78 mm to 19.05 mm')`)
	until(t, ctx, "a form with nothing left over", `document.querySelector('#not-kept')?.innerText === ''`)
}

func TestAPartOfTheDrawingLeadsToItsFigure(t *testing.T) {
	address, ctx := demoAddress(t), browser(t)
	do(t, ctx, chromedp.EmulateViewport(1440, 900))
	open(t, ctx, address+"/cars/street-saloon")
	ask[bool](t, ctx, `document.querySelector('.load-path .wide .part[data-part=disc]').dispatchEvent(new MouseEvent('click', {bubbles: true}))`)
	until(t, ctx, "the facing's figure in focus", `document.activeElement.name === 'figure.clutch.two-disc.facing.outer'`)
}

// TestPagesHaveNoBarriers looks at every kind of page with axe-core (rules of WCAG 2.1 A and AA), in light and dark.
func TestPagesHaveNoBarriers(t *testing.T) {
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		t.Fatalf("%v; run scripts/fetch-axe", err)
	}
	address, ctx := demoAddress(t), browser(t)
	for _, scheme := range []string{"light", "dark"} {
		feature := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: feature}); err != nil {
			t.Fatal(err)
		}
		for _, path := range []string{"/", "/cars/street-saloon", "/cars/new?example=track-coupe", "/layouts", "/layouts/rwd-longitudinal", "/people", "/nowhere"} {
			open(t, ctx, address+path)
			ask[bool](t, ctx, `document.querySelectorAll('details').forEach(d => d.open = true), true`)
			do(t, ctx, chromedp.Evaluate[chromedp.Void](string(axe)))
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']})
				.then(r => r.passes.length < 8 ? ['hardly anything was looked at'] : r.violations.map(v => v.id + ' (' + v.impact + '): ' + v.help + ' – ' + v.nodes.slice(0, 4).map(n => n.html.slice(0, 140)).join(' | ')))`, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, barrier := range found {
				t.Errorf("%s, %s: %s", path, scheme, barrier)
			}
		}
	}
}
