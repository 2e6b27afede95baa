package pricelist_test

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

const (
	catalogueFile = "codes.md"
	codeExamples  = "testdata/codes"
	moduleRoot    = "../.."
)

// catalogued is one row of the catalogue.
type catalogued struct {
	severity quoin.Severity
	example  string
}

var (
	catalogueSection = map[string]quoin.Severity{"## Faults": quoin.Fault, "## Warnings": quoin.Warning, "## Reasons": reason}
	catalogueRow     = regexp.MustCompile("^\\| (?:`([a-z_]+)`|\\[`([a-z_]+)`\\]\\(([^)]*)\\)) \\| [A-Z][^|]+\\. \\| [A-Z][^|]+\\. \\|$")
)

// catalogue reads the rows of codes.md. A row that is not as the others is an
// error, not passed over.
func catalogue(t *testing.T) map[quoin.Code]catalogued {
	t.Helper()
	text, err := os.ReadFile(catalogueFile)
	if err != nil {
		t.Fatal(err)
	}
	var now quoin.Severity
	out := make(map[quoin.Code]catalogued)
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") {
			now = catalogueSection[line]
		}
		if now == "" || !strings.HasPrefix(line, "|") || line == "|---|---|---|" || line == "| code | what it means | what to do |" {
			continue
		}
		m := catalogueRow.FindStringSubmatch(line)
		if m == nil {
			t.Errorf("%s: not a row of code, meaning and what to do: %s", catalogueFile, line)
			continue
		}
		c := quoin.Code(m[1] + m[2])
		if _, twice := out[c]; twice {
			t.Errorf("%s: %s stands there twice", catalogueFile, c)
		}
		out[c] = catalogued{now, m[3]}
	}
	return out
}

// constants returns the values of all constants of type quoin.Code in one
// file, with their names. It stops at a value that is not written out.
func constants(file *ast.File) (map[string]quoin.Code, error) {
	out := make(map[string]quoin.Code)
	for _, decl := range file.Decls {
		d, ok := decl.(*ast.GenDecl)
		if !ok || d.Tok != token.CONST {
			continue
		}
		var kind ast.Expr
		var values []ast.Expr
		for _, spec := range d.Specs {
			s := spec.(*ast.ValueSpec)
			if s.Type != nil || len(s.Values) > 0 {
				kind, values = s.Type, s.Values // else as the line before
			}
			for i, name := range s.Names {
				if i >= len(values) {
					return nil, fmt.Errorf("%s has no value", name.Name)
				}
				c, err := constant(file.Name.Name, kind, values[i])
				if err != nil {
					return nil, fmt.Errorf("%s: %w", name.Name, err)
				}
				if c != "" {
					out[name.Name] = c
				}
			}
		}
	}
	return out, nil
}

// constant returns the code that a value is, "" where it is of another type.
func constant(pkg string, kind, value ast.Expr) (quoin.Code, error) {
	if call, ok := value.(*ast.CallExpr); ok && kind == nil && len(call.Args) == 1 {
		kind, value = call.Fun, call.Args[0]
	}
	switch k := kind.(type) {
	case *ast.Ident:
		if pkg != "quoin" || k.Name != "Code" {
			return "", nil
		}
	case *ast.SelectorExpr:
		if x, ok := k.X.(*ast.Ident); !ok || x.Name != "quoin" || k.Sel.Name != "Code" {
			return "", nil
		}
	default:
		return "", nil
	}
	text, ok := value.(*ast.BasicLit)
	if !ok {
		return "", errors.New("a code that is not written out")
	}
	s, err := strconv.Unquote(text.Value)
	return quoin.Code(s), err
}

// writtenCodes finds the codes in the module's own source, and where each stands.
func writtenCodes(t *testing.T) map[quoin.Code]string {
	t.Helper()
	out := make(map[quoin.Code]string)
	err := filepath.WalkDir(moduleRoot, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir():
			_, nested := os.Stat(filepath.Join(name, "go.mod"))
			if base := d.Name(); name != moduleRoot && (nested == nil || base == "testdata" || strings.ContainsAny(base[:1], "._")) {
				return fs.SkipDir
			}
			return nil
		case !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		found, err := constants(file)
		for id, c := range found {
			where := file.Name.Name + "." + id
			if out[c] != "" {
				t.Errorf("%s and %s are both %s", out[c], where, c)
			}
			out[c] = where
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestConstantsAreFound(t *testing.T) {
	for text, want := range map[string]string{
		`package quoin; const A Code = "a"`:                                   "map[A:a]",
		`package rule; const A quoin.Code = "a"; const B = quoin.Code("b")`:   "map[A:a B:b]",
		`package rule; const (A, B quoin.Code = "a", "b"; C = "c"; D = 4)`:    "map[A:a B:b]",
		`package rule; const (A quoin.Code = "a"; B; C quoin.StepCode = "c")`: "map[A:a B:a]",
		`package rule; const (A Code = "a"; B = other.Code("b")); var C = 1`:  "map[]",
		`package rule; const A quoin.Code = "a" + "b"`:                        "A: a code that is not written out",
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "", text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		found, err := constants(file)
		got := fmt.Sprint(found)
		if err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%s\ngives %s, want %s", text, got, want)
		}
	}
}

func TestEveryCodeIsInTheCatalogue(t *testing.T) {
	written, listed := writtenCodes(t), catalogue(t)
	for c, where := range written {
		if _, ok := listed[c]; !ok {
			t.Errorf("%s: %s is not in %s", where, c, catalogueFile)
		}
	}
	for c, e := range listed {
		if written[c] == "" {
			t.Errorf("%s: %s is no code", catalogueFile, c)
		}
		want := codeExamples + "/" + string(c) + ".json"
		if withoutExample[c].why != "" {
			want = ""
		}
		if e.example != want {
			t.Errorf("%s: %s is linked to %q, want %q", catalogueFile, c, e.example, want)
		}
	}
	for c := range withoutExample {
		if written[c] == "" {
			t.Errorf("withoutExample lists %s, which is no code", c)
		}
	}
}

func TestEveryCodeHasItsExample(t *testing.T) {
	listed := catalogue(t)
	for c, e := range listed {
		if withoutExample[c].why != "" {
			continue
		}
		data, err := os.ReadFile(filepath.Join(codeExamples, string(c)+".json"))
		if err != nil {
			t.Errorf("%s: %v", c, err)
			continue
		}
		answer, err := pricelist.Price(data)
		if e.severity == quoin.Fault {
			checkFault(t, c, err)
		} else {
			checkWarning(t, c, answer.Warnings, err)
		}
	}
	left, err := os.ReadDir(codeExamples)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range left {
		c := quoin.Code(strings.TrimSuffix(f.Name(), ".json"))
		if _, ok := listed[c]; !ok || withoutExample[c].why != "" {
			t.Errorf("%s/%s: an example of no code that wants one", codeExamples, f.Name())
		}
	}
}

// checkFault checks that err is exactly one problem, of a code, with all it needs.
func checkFault(t *testing.T, c quoin.Code, err error) {
	t.Helper()
	var ps quoin.Problems
	if !errors.As(err, &ps) || len(ps) != 1 || ps[0].Code != c {
		t.Errorf("%s: the document gives\n%v", c, err)
		return
	}
	p := ps[0]
	if p.Severity != quoin.Fault || p.Found == "" || p.Wanted == "" {
		t.Errorf("%s: not a fault, or nothing found or wanted: %#v", c, p)
	}
	if (p.Path == "") != (c == quoin.BadJSON) || p.Line == 0 || p.Column == 0 {
		t.Errorf("%s: stands at %q, line %d, column %d", c, p.Path, p.Line, p.Column)
	}
}

func checkWarning(t *testing.T, c quoin.Code, warnings quoin.Problems, err error) {
	t.Helper()
	if err != nil {
		t.Errorf("%s: the document cannot be priced:\n%v", c, err)
		return
	}
	found := false
	for _, w := range warnings {
		found = found || w.Code == c
		if w.Severity != quoin.Warning || w.Path == "" || w.Found == "" || len(w.Args) == 0 {
			t.Errorf("%s: a warning without severity, path, found or args: %#v", c, w)
		}
	}
	if !found {
		t.Errorf("%s: the document is priced without it:\n%v", c, warnings)
	}
}

// faulty is what a document with n faults in a list, and two more, gives.
func faulty(n int) error {
	const doc = `{"version": 1, "currency": "EUR", "products": [], "channels": [], "comparables": [%s]}`
	_, err := pricelist.Price(fmt.Appendf(nil, doc, strings.TrimSuffix(strings.Repeat("0,", n), ",")))
	return err
}

func TestMoreProblemsThanAreListed(t *testing.T) {
	for n, want := range map[int]int{998: 1000, 999: 1001, 5000: 1001} {
		var ps quoin.Problems
		errors.As(faulty(n), &ps)
		more := 0
		for i, p := range ps {
			if p.Code == quoin.MoreProblems {
				more++
				if i != len(ps)-1 {
					t.Errorf("%d faults: %s is not last", n+2, p.Code)
				}
			}
		}
		if len(ps) != want || more != max(0, want-1000) {
			t.Errorf("%d faults: %d problems, %d of more, want %d", n+2, len(ps), more, want)
		}
	}
}

// Warnings can be put in another language from their args, by name.
func TestWarningsInAnotherLanguage(t *testing.T) {
	german := map[quoin.Code]string{
		pricelist.InDeadZone:        "{product} für {price} bringt in {channel} weniger als für {better}: dort bleiben {keeps}.",
		pricelist.PostageShort:      "In {channel} zahlen Käufer {charged} Versand, das Porto kostet {paid}.",
		pricelist.LosesMoney:        "{product} für {price} trägt in {channel} {contribution} bei.",
		pricelist.ContingencyAsLoss: "{contingency} Aufschlag decken nur {covers} Ausschuss.",
	}
	// 39.99 + 4.50 − 6.67 of tax − 1.20 (44.49 × 2.1% + 0.27) − 4.10, less goods of
	// 0.844 ÷ 0.85 + 0.62 = 1.61.
	for c, want := range map[quoin.Code]string{
		pricelist.InDeadZone:        "bittern für 40.00 bringt in shop weniger als für 39.99: dort bleiben 30.91.",
		pricelist.PostageShort:      "In shop zahlen Käufer 2.90 Versand, das Porto kostet 4.10.",
		pricelist.LosesMoney:        "snipe-a5 für 12.00 trägt in fair -1.45 bei.",
		pricelist.ContingencyAsLoss: "15% Aufschlag decken nur 13.04% Ausschuss.",
	} {
		data, err := os.ReadFile(filepath.Join(codeExamples, string(c)+".json"))
		if err != nil {
			t.Fatal(err)
		}
		answer, err := pricelist.Price(data)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(answer.Warnings, func(p quoin.Problem) bool { return p.Code == c })
		if i < 0 {
			t.Errorf("%s: no such warning", c)
			continue
		}
		got := german[c]
		for _, a := range answer.Warnings[i].Args {
			got = strings.ReplaceAll(got, "{"+a.Name+"}", a.Value)
		}
		if got != want {
			t.Errorf("%s: %s\nwant %s", c, got, want)
		}
	}
}
