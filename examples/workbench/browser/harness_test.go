package browser

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

const root = "../../.."

// site is the workbench as it is served, for all tests.
type site struct {
	url  string
	stop func()
}

// serve builds the command and starts it on a free port.
func serve(t testing.TB, binary string) site {
	t.Helper()
	c := exec.Command(binary, "-listen", "127.0.0.1:0")
	c.Dir = root
	c.Stderr = os.Stderr
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	stop := sync.OnceFunc(func() {
		c.Process.Kill()
		c.Wait()
	})
	t.Cleanup(stop)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal("the workbench did not start: ", err)
	}
	_, rest, _ := strings.Cut(line, "http://")
	address, _, _ := strings.Cut(rest, "/")
	return site{"http://" + address + "/", stop}
}

// made is the folder that the command was built in, if it was.
var made string

// built is the command, built once for all tests.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "workbench")
	if err != nil {
		return "", err
	}
	made = dir
	binary := filepath.Join(dir, "workbench")
	c := exec.Command("go", "build", "-o", binary, "./examples/workbench")
	c.Dir = root
	if said, err := c.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w\n%s", err, said)
	}
	return binary, nil
})

func TestMain(m *testing.M) {
	status := m.Run()
	if made != "" {
		os.RemoveAll(made)
	}
	os.Exit(status)
}

// chromium is where the browser is; without one a test fails, and is not left out.
func chromium(t testing.TB) string {
	t.Helper()
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser"} {
		if name == "" {
			continue
		}
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	t.Fatal("No Chromium found. Install it (on Debian: apt-get install chromium), or say in CHROMIUM where it is.")
	return ""
}

// tab is a page in a browser of its own, with all that it complained about.
type tab struct {
	testing.TB
	ctx     context.Context
	browser context.Context
	site    site
	mu      sync.Mutex
	bad     []string // errors of the console, exceptions, violations of the policy
	sent    []string // requests
}

// size of a window, in pixels.
type size struct{ width, height int64 }

var (
	desk  = size{1280, 1000}
	phone = size{390, 844}
)

// open starts the workbench and a browser, and waits until the page is ready. When the test ends,
// whatever the page complained about fails it.
func open(t testing.TB, s size) *tab {
	t.Helper()
	where := chromium(t)
	binary, err := built()
	if err != nil {
		t.Fatal(err)
	}
	p := &tab{TB: t, site: serve(t, binary)}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(where), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("window-size", fmt.Sprintf("%d,%d", s.width, s.height)))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	p.browser, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Listen(p.browser, p.hear); err != nil {
		t.Fatal(err)
	}
	p.ctx, cancel = context.WithTimeout(p.browser, 4*time.Minute)
	t.Cleanup(cancel)
	call(p, network.Enable, network.EnableParams{})
	call(p, log.Enable, cdp.Empty{})
	call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: s.width, Height: s.height, DeviceScaleFactor: 1, Mobile: s.width < 600})
	call(p, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `addEventListener('securitypolicyviolation', (e) => console.error('policy: ' + e.violatedDirective + ' ' + e.blockedURI))`,
	})
	t.Cleanup(func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		for _, b := range p.bad {
			t.Error("the page complained: ", b)
		}
	})
	p.do(chromedp.Navigate(p.site.url))
	p.ready()
	return p
}

// ready waits for the engine, and for the files to be kept for when there is no network.
func (p *tab) ready() {
	p.Helper()
	p.until(`document.body.classList.contains('ready')`)
	p.run(`navigator.serviceWorker.ready.then(() => true)`)
}

func (p *tab) hear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning {
			text := ""
			for _, a := range e.Args {
				text += fmt.Sprintf("%s %s ", a.Value, a.Description)
			}
			p.bad = append(p.bad, text)
		}
	case *runtime.EventExceptionThrown:
		p.bad = append(p.bad, fmt.Sprintf("%s %+v", e.ExceptionDetails.Text, e.ExceptionDetails.Exception))
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError || e.Entry.Level == log.EntryLevelWarning {
			p.bad = append(p.bad, e.Entry.Text+" "+e.Entry.URL)
		}
	case *network.EventRequestWillBeSent:
		if !strings.HasPrefix(e.Request.URL, "blob:") && !strings.HasPrefix(e.Request.URL, "data:") {
			p.sent = append(p.sent, e.Request.URL)
		}
	}
}

func (p *tab) requests() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]string(nil), p.sent...)
}

func (p *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	if err := chromedp.Do(p.ctx, actions...); err != nil {
		p.Fatal(err)
	}
}

// call makes a call of the browser's protocol.
func call[P, R any](p *tab, command cdp.Command[P, R], with P) R {
	p.Helper()
	result, err := chromedp.Call(p.ctx, command, with)
	if err != nil {
		p.Fatal(err)
	}
	return result
}

// value is what an expression of the page comes to.
func value[T any](p *tab, expression string) T {
	p.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.Fatalf("%v\n%s", err, expression)
	}
	return v
}

// run runs a script of the page.
func (p *tab) run(script string) {
	p.Helper()
	value[chromedp.Void](p, script)
}

func (p *tab) text(selector string) string {
	p.Helper()
	return value[string](p, fmt.Sprintf(`(document.querySelector(%q)?.textContent ?? 'nothing at %s')`, selector, strings.ReplaceAll(selector, "'", "")))
}

// reveal opens what an element is folded in, brings it into view, and returns its middle.
func (p *tab) reveal(selector string) (x, y float64) {
	p.Helper()
	at := value[[]float64](p, fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		if (!e) return [];
		for (let d = e.closest('details'); d; d = d.parentElement.closest('details')) if (d.firstElementChild !== e) d.open = true;
		e.scrollIntoView({block: 'center', behavior: 'instant'});
		const r = e.getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2];
	})()`, selector))
	if len(at) != 2 {
		p.Fatalf("nothing at %s", selector)
	}
	return at[0], at[1]
}

func (p *tab) click(selector string) {
	p.Helper()
	x, y := p.reveal(selector)
	p.do(chromedp.MouseClickXY(x, y))
}

// write puts a text into a field as a person does, and leaves the field.
func (p *tab) write(selector, text string) {
	p.Helper()
	p.reveal(selector)
	p.run(fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.focus(); e.select(); })()`, selector))
	if text == "" {
		p.do(chromedp.KeyEvent(kb.Delete))
	}
	p.do(chromedp.KeyEvent(text + "\t"))
}

// field selects the field of a path of the document.
func field(path string) string { return fmt.Sprintf(`[data-path="%s"]`, path) }

// document is the text that is shown.
func (p *tab) document() string {
	p.Helper()
	return value[string](p, `document.getElementById('text').value`)
}

// begin takes one of the two examples.
func (p *tab) begin(name string) {
	p.Helper()
	p.run(fmt.Sprintf(`(() => { const s = document.getElementById('begin'); s.value = %q; s.dispatchEvent(new Event('change')); })()`, name))
	want := read(p, map[string]string{"first.json": "first/shop.json", "scenario.json": "pricesheet/scenario.json"}[name])
	p.until(fmt.Sprintf(`document.getElementById('text').value === %q`, want))
}

// until waits for a condition of the page.
func (p *tab) until(condition string) {
	p.Helper()
	if _, err := chromedp.Run(p.ctx, chromedp.Poll[chromedp.Void](condition, chromedp.WithPollingTimeout(30*time.Second))); err != nil {
		p.Fatalf("%v: %.300s", err, condition)
	}
}

// read is a document of the examples.
func read(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "examples", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// shot keeps a picture of the whole page.
func (p *tab) shot(name string) {
	p.Helper()
	png, err := chromedp.Run(p.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		p.Fatal(err)
	}
	p.keep(name+".png", png)
}

// keep puts a picture into the folder that SCREENSHOTS names, or into one that goes.
func (p *tab) keep(name string, png []byte) {
	p.Helper()
	dir := os.Getenv("SCREENSHOTS")
	if dir == "" {
		dir = p.TempDir()
	}
	if err := errors.Join(os.MkdirAll(dir, 0o755), os.WriteFile(filepath.Join(dir, name), png, 0o644)); err != nil {
		p.Fatal(err)
	}
	if len(png) < 20_000 {
		p.Errorf("the picture %s has %d bytes: nothing can be on it", name, len(png))
	}
}
