package picture

import (
	"regexp"
	"strings"
)

// Style returns the style that all pictures share. A page that shows several writes it once and
// uses Picture.Bare.
func Style() string { return style }

const style = `.quoin{font:12px ui-sans-serif,system-ui,sans-serif;max-width:100%;height:auto;` +
	`--ground:#fffdf7;--ink:#23303a;--soft:#5d6a6f;--rule:#d8d4c8;--allowed:#5f7f3c;--loss:#a3281c;` +
	`--c0:#2d5f86;--c1:#9a4a18;--c2:#4c6b22;--c3:#70406e;--c4:#7a5c00;--c5:#3f4d55;` +
	`--f0:#e9e4d6;--f1:#d7c3a0;--f2:#b9cda4;--f3:#cfe0c0;--f4:#a9c3d6;--f5:#cbdbe6;--f6:#dcc0b4;--f7:#d5cbdc;--f8:#e4d9c0;--f9:#fff3b8}` +
	`@media (prefers-color-scheme:dark){.quoin{--ground:#1b2226;--ink:#e9e6dc;--soft:#a8b2b4;--rule:#3c474c;--allowed:#a4c877;--loss:#ff9a8a;` +
	`--c0:#8fc1ea;--c1:#f0a675;--c2:#b5d581;--c3:#dba8d8;--c4:#e0c25c;--c5:#b9c6cc;` +
	`--f0:#4a473f;--f1:#65543a;--f2:#42562f;--f3:#35472a;--f4:#2f4d63;--f5:#29414f;--f6:#5f4238;--f7:#4d4256;--f8:#575040;--f9:#5f5620}}` +
	`@media print{.quoin{--ground:#fff;--ink:#000;--soft:#444;--rule:#bbb;--allowed:#3f5f1c;--loss:#801010;` +
	`--c0:#1d4f76;--c1:#7a3a08;--c2:#3c5b12;--c3:#60305e;--c4:#6a4c00;--c5:#2f3d45;` +
	`--f0:#e9e4d6;--f1:#d7c3a0;--f2:#b9cda4;--f3:#cfe0c0;--f4:#a9c3d6;--f5:#cbdbe6;--f6:#dcc0b4;--f7:#d5cbdc;--f8:#e4d9c0;--f9:#fff3b8}}` +
	`.quoin text{fill:var(--ink)}.quoin .soft{fill:var(--soft)}.quoin .b{font-weight:600}.quoin .e{text-anchor:end}.quoin .m{text-anchor:middle}` +
	`.quoin .halo{paint-order:stroke;stroke:var(--ground);stroke-width:3px;stroke-linejoin:round}` +
	`.quoin .bg{fill:var(--ground)}.quoin .grid{stroke:var(--rule);fill:none}.quoin .axis{stroke:var(--ink);fill:none}` +
	`.quoin .part{stroke:var(--ink);stroke-width:.8}.quoin .edge{stroke:var(--ink);stroke-width:.8;fill:none}.quoin .now{stroke:var(--ink);stroke-width:2;fill:none}` +
	`.quoin .was{stroke:var(--ink);stroke-dasharray:2 3;fill:none}.quoin .may{fill:var(--allowed)}.quoin .dead{fill:var(--soft);fill-opacity:.16}` +
	`.quoin .tick{fill:var(--ink)}.quoin .open{fill:var(--ground);stroke:var(--ink)}.quoin .box{fill:var(--f1);stroke:var(--ink);stroke-width:.8}.quoin .sheet{fill:var(--f0);stroke:var(--ink)}` +
	`.quoin .over{fill:none;stroke:var(--loss);stroke-width:2.5}.quoin .warn{fill:var(--loss);font-weight:600}` +
	`.quoin .h{stroke:var(--ink);stroke-width:.7;stroke-opacity:.55;fill:none}` +
	`.quoin .l0{stroke:var(--c0)}.quoin .l1{stroke:var(--c1);stroke-dasharray:8 3}.quoin .l2{stroke:var(--c2);stroke-dasharray:2 2}` +
	`.quoin .l3{stroke:var(--c3);stroke-dasharray:10 3 2 3}.quoin .l4{stroke:var(--c4);stroke-dasharray:5 5}.quoin .l5{stroke:var(--c5);stroke-dasharray:1 4}` +
	`.quoin .line{fill:none;stroke-width:2}` +
	`.quoin .f0{fill:var(--f0)}.quoin .f1{fill:var(--f1)}.quoin .f2{fill:var(--f2)}.quoin .f3{fill:var(--f3)}.quoin .f4{fill:var(--f4)}` +
	`.quoin .f5{fill:var(--f5)}.quoin .f6{fill:var(--f6)}.quoin .f7{fill:var(--f7)}.quoin .f8{fill:var(--f8)}.quoin .f9{fill:var(--f9)}`

// lightColours are the variables of the style with their values in a light scheme, one behind the
// other.
func lightColours() []string {
	light, _, _ := strings.Cut(style, "}@media")
	var values []string
	for _, declaration := range strings.Split(light, ";") {
		if name, value, found := strings.Cut(declaration, ":"); found && strings.HasPrefix(name, "--") {
			values = append(values, "var("+name+")", value)
		}
	}
	return values
}

// plainStyle is the style with its light colours in place of variables, and without halos: where
// the order of painting is not known, they hide the text that they are around.
func plainStyle() string {
	rules := style[strings.Index(style, ".quoin text"):]
	before, halo, _ := strings.Cut(rules, ".quoin .halo{")
	_, after, _ := strings.Cut(halo, "}")
	rules = before + after
	return ".quoin{font:12px sans-serif}" + strings.NewReplacer(lightColours()...).Replace(rules)
}

// unpatterned is a picture with plain colours in place of patterns.
func unpatterned(svg string) string {
	patterns := regexp.MustCompile(`"url\(#[^)]*-([0-9])\)"`)
	return strings.NewReplacer(lightColours()...).Replace(patterns.ReplaceAllString(svg, `"var(--f$1)"`))
}
