package browser

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
)

// dark has the page as those see it who like it dark.
func (p *tab) dark(on bool) {
	p.Helper()
	scheme := map[bool]string{true: "dark", false: "light"}[on]
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
}

// The picture of the README: what a window shows of the larger shop, three fifths as large.
func TestPictureOfTheReadme(t *testing.T) {
	p := open(t, size{1280, 900})
	p.begin("scenario.json")
	p.click(`[data-product="bittern-a4"]`)
	p.run(`scrollTo({top: 0, behavior: 'instant'}); document.activeElement.blur()`)
	png := call(p, page.CaptureScreenshot, page.CaptureScreenshotParams{Clip: &page.Viewport{Width: 1280, Height: 900, Scale: 0.6}})
	p.keep("workbench.png", png.Data)
}

// The page is looked at on a desk and on a phone, light and dark. It never moves sideways.
func TestScreenshots(t *testing.T) {
	for _, s := range []struct {
		name string
		size
	}{{"1280", desk}, {"390", phone}} {
		t.Run(s.name, func(t *testing.T) {
			p := open(t, s.size)
			p.shot("first-" + s.name)
			p.begin("scenario.json")
			p.shot("scenario-" + s.name)
			p.dark(true)
			p.shot("dark-" + s.name)
			p.dark(false)
			p.write("#number", "13.20")
			p.click("#pin")
			p.until(`document.querySelector('#pinned').textContent !== ''`)
			p.shot("pinned-" + s.name)
			p.write(field("supplies[0].price"), "7o.00")
			p.shot("fault-" + s.name)
			p.run(`document.querySelector('#text-part').open = true`)
			p.click("#faults button")
			p.shot("text-" + s.name)
			p.click("#undo")
			p.click("#pin")
			p.click("#write")
			p.run(`document.getElementById('more').open = document.getElementById('story').open = true`)
			p.shot("conflict-" + s.name)
			if wide := value[int](p, `document.documentElement.scrollWidth`); wide > int(s.width) {
				t.Errorf("the page is %d wide, the window %d", wide, s.width)
			}
		})
	}
}
