package house_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const (
	module    = "example.com/quoin"
	top       = "../.."
	mostLines = 400
	mostNames = 60
)

// imports is the house as it is drawn: what each package may import of ours.
// The root is ".". Programs under examples may import all that importers can.
var imports = map[string][]string{
	".":                    {"internal/decimal", "internal/units"},
	"internal/decimal":     {"internal/int128"},
	"internal/int128":      {},
	"internal/form":        {"."},
	"internal/halfup":      {},
	"internal/handtest":    {},
	"internal/house":       {},
	"internal/problemtest": {".", "internal/steptest"},
	"internal/steptest":    {"."},
	"internal/page":        {},
	"internal/units":       {"internal/decimal"},
	"internal/prose":       {},
	"internal/version":     {},
	"internal/release":     {"margin/pricelist"},
	"internal/schemas": {
		".", "channel/fair", "channel/promo", "cost/ink", "cost/source", "internal/form", "internal/units",
		"margin/comparables", "margin/edition", "margin/history", "margin/pricelist", "margin/rule",
	},
	"internal/zerotest":  {},
	"cost/buy":           {".", "internal/form"},
	"cost/cut":           {".", "internal/form"},
	"cost/frame":         {".", "cost/cut", "internal/form"},
	"cost/ink":           {".", "internal/form"},
	"cost/machine":       {".", "internal/form"},
	"cost/paper":         {"."},
	"cost/source":        {".", "cost/buy", "internal/form"},
	"cost":               {".", "cost/buy", "cost/cut", "cost/frame", "cost/ink", "internal/form"},
	"waste":              {".", "internal/form", "internal/int128"},
	"channel/fair":       {".", "internal/form"},
	"channel/parcel":     {".", "internal/form"},
	"channel/promo":      {".", "internal/form"},
	"channel/refund":     {".", "internal/form"},
	"channel":            {".", "channel/promo", "channel/refund", "internal/form", "internal/halfup"},
	"margin":             {".", "cost", "waste", "channel", "internal/form", "internal/halfup"},
	"margin/edition":     {".", "internal/form"},
	"margin/history":     {".", "cost/buy", "margin/edition", "internal/form"},
	"margin/comparables": {".", "internal/form", "internal/int128"},
	"internal/estimate":  {"."},
	"margin/market":      {".", "cost/buy", "margin/comparables", "internal/estimate", "internal/form"},
	"margin/trial":       {".", "cost/buy", "internal/estimate", "internal/form"},
	"margin/rule":        {".", "cost", "cost/buy", "waste", "channel", "margin", "margin/comparables", "internal/form", "internal/int128"},
	"margin/pricelist": {
		".", "cost", "cost/buy", "cost/cut", "cost/frame", "cost/ink", "cost/machine", "cost/paper", "cost/source",
		"waste", "channel", "channel/fair", "channel/parcel", "channel/promo", "channel/refund", "margin", "margin/comparables", "margin/edition", "margin/rule", "internal/form", "internal/version",
	},
	"margin/pricelist/annual": {
		".", "margin/comparables", "margin/history", "margin/market", "margin/rule", "margin/trial", "margin/pricelist", "margin/pricelist/review", "internal/form", "internal/page",
	},
	"margin/pricelist/embedded": {".", "margin/pricelist", "internal/version"},
	"margin/pricelist/review":   {".", "channel", "channel/promo", "margin/rule", "margin/pricelist", "internal/form"},
	"internal/breakdown":        {".", "margin", "margin/pricelist"},
	"margin/pricelist/picture":  {".", "channel", "cost/cut", "margin", "margin/comparables", "margin/rule", "margin/pricelist", "internal/breakdown", "internal/page"},
	"margin/pricelist/proof":    {".", "margin/pricelist"},
	"margin/pricelist/tables":   {".", "margin/pricelist", "internal/form"},
	"margin/pricelist/sheet":    {".", "cost", "cost/buy", "cost/source", "waste", "channel", "margin", "margin/comparables", "margin/rule", "margin/pricelist", "margin/pricelist/picture", "internal/breakdown", "internal/page"},
}

// everywhere may be imported by all: it knows nothing but text.
const everywhere = "internal/prose"

// outsiders are the modules of others, each with its only importers.
var outsiders = map[string][]string{
	"github.com/cockroachdb/apd/v3":               {"internal/decimal"},
	"github.com/go-json-experiment/json/jsontext": {"internal/form"},
	"github.com/bojanz/currency":                  {"."},
	"gonum.org/v1/gonum":                          estimators,
}

// estimators may compute with floats: what they say is uncertain by far more, and
// comes out of them as decimals of six digits.
var estimators = []string{"margin/market", "margin/trial", "internal/estimate"}

// worldly packages, and all below them, reach what is not a value: files, the
// network, the clock, chance, the process, memory behind the types.
var worldly = []string{
	"C", "crypto/rand", "flag", "io/ioutil", "log", "math/rand", "net", "os", "path/filepath", "plugin", "runtime",
	"syscall", "testing", "time", "unsafe",
}

// reflectors may import reflect.
var reflectors = []string{"internal/form", "internal/schemas", "internal/zerotest", "margin/pricelist"}

// generators are programs that write files of this module out of others: nothing imports them.
var generators = []string{"internal/release", "internal/schemas"}

// testers are for tests alone, and only tests import them.
var testers = []string{"internal/handtest", "internal/steptest", "internal/zerotest"}

// variables are all that packages may have, as "package name", and why each
// is none that changes.
var variables = map[string]string{
	". amountForm":                      "what an amount may look like",
	". factorForm":                      "what a factor may look like",
	". hundred":                         "a constant, of an immutable type",
	". mostPrices":                      "a bound, only compared with",
	". one":                             "a constant, of an immutable type",
	". percent":                         "a constant, of an immutable type",
	". quantityForm":                    "what a quantity may look like",
	". rateForm":                        "what a rate may look like",
	". roundings":                       "a table of words, only looked up",
	". vulgar":                          "a table of characters, only looked up",
	"channel noKind":                    "a kind of order that says nothing, only read",
	"channel noOrder":                   "an order that says nothing, only read",
	"channel silent":                    "a trail that keeps nothing",
	"channel slack":                     "a constant, of an immutable type",
	"channel whole":                     "a constant, of an immutable type",
	"examples/designs marsh":            "an embedded file, only read",
	"examples/designs sizes":            "a table of words, only looked up",
	"examples/first shop":               "an embedded file, only read",
	"examples/pricesheet newDocument":   "an embedded file, only read",
	"examples/pricesheet scenario":      "an embedded file, only read",
	"examples/review embedded":          "embedded files, only read",
	"examples/script amount":            "a function under a shorter name",
	"examples/script quantity":          "a function under a shorter name",
	"examples/script rate":              "a function under a shorter name",
	"examples/workbench page":           "embedded files, only read",
	"internal/handtest bold":            "what a result looks like",
	"internal/handtest fence":           "what a quoted block looks like",
	"internal/handtest number":          "what a number looks like",
	"internal/handtest sum":             "what a sum looks like",
	"internal/decimal exact":            "a context, which sums only read",
	"internal/decimal quotient":         "a context, which sums only read",
	"internal/decimal tens":             "powers of ten, only looked up",
	"internal/decimal wideTens":         "powers of ten, only looked up",
	"internal/form errFound":            "an error to be told by its identity",
	"internal/form errFull":             "an error to be told by its identity",
	"internal/form errMore":             "an error to be told by its identity",
	"internal/form errType":             "an error to be told by its identity",
	"internal/form kinds":               "what packages say of their types when they are initialized",
	"internal/form known":               "what tags of types say, read once and the same for every document",
	"internal/form mark":                "a constant, only compared with",
	"internal/form meanings":            "a table of words, only looked up",
	"internal/form options":             "how all texts are read",
	"internal/form readers":             "readers that have read, to be used again",
	"internal/form referring":           "which fields of types refer to something, the same for every value",
	"internal/form scalars":             "how types are read",
	"internal/form shapes":              "what the tags of types say, which are read once",
	"internal/form unitOf":              "a table of units, only looked up",
	"internal/release documents":        "a table of names, only looked up",
	"internal/release promises":         "a table of names, only looked up",
	"internal/release version":          "a pattern, only matched",
	"internal/schemas answerTexts":      "a table of patterns, only looked up",
	"internal/schemas figures":          "a table of numbers, only looked up",
	"internal/schemas moreOfAnswer":     "a table of JSON, only looked up",
	"internal/schemas moreOfDocument":   "a table of JSON, only looked up",
	"internal/schemas rangeNames":       "a table of words, only looked up",
	"internal/units measures":           "the table of units, only looked up",
	"internal/units singular":           "a table of words, only looked up",
	"internal/units spelled":            "the table of units by how they are written, made once and only looked up",
	"margin/pricelist answerSchema":     "an embedded file, handed out as a copy",
	"margin/pricelist basisPoint":       "a constant, only an operand",
	"margin/pricelist documentSchema":   "an embedded file, handed out as a copy",
	"margin/pricelist halfRate":         "a constant, only compared with",
	"margin/pricelist hundredth":        "a constant, only an operand",
	"margin/pricelist lawful":           "a table of matters of law, only read",
	"margin/pricelist smallRate":        "a bound, only compared with",
	"margin/pricelist tellers":          "tellers that have told, to be used again",
	"margin/pricelist wholeRate":        "a bound, only compared with",
	"margin/pricelist/annual plain":     "a table of words, only looked up",
	"margin/pricelist/sheet briefHeads": "heads of a table, only read",
	"margin/pricelist/tables files":     "embedded files, only read",
	"internal/breakdown whereItGoes":    "a table of lines, only read",
	"margin/rule kinds":                 "a table, only looked up",
	"margin/rule never":                 "a comb without teeth on any grid; combs are never written to",
	"waste nextToNothing":               "a bound, only compared with",
}

type source struct {
	name string // from the top of the module
	*ast.File
	lines int
}

type folder struct {
	dir   string
	files []source
}

func (f folder) example() bool { return strings.HasPrefix(f.dir, "examples/") }

var positions = token.NewFileSet()

func at(p token.Pos) string {
	where := positions.Position(p)
	return fmt.Sprintf("%s:%d", where.Filename, where.Line)
}

// folders parses the code of the root module that is not for tests, whatever
// its build constraints.
func folders(t *testing.T) []folder {
	t.Helper()
	found := map[string]*folder{}
	err := filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return enter(name, d)
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		short := slash(name)
		file, err := parser.ParseFile(positions, short, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		dir := path.Dir(short)
		if found[dir] == nil {
			found[dir] = &folder{dir: dir}
		}
		found[dir].files = append(found[dir].files, source{short, file, bytes.Count(text, []byte("\n"))})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	var all []folder
	for _, f := range found {
		all = append(all, *f)
	}
	slices.SortFunc(all, func(a, b folder) int { return strings.Compare(a.dir, b.dir) })
	return all
}

// enter skips what the go command skips: nested modules too.
func enter(name string, d fs.DirEntry) error {
	if name == top {
		return nil
	}
	if base := d.Name(); base[0] == '.' || base[0] == '_' || base == "testdata" {
		return fs.SkipDir
	}
	if _, err := os.Stat(filepath.Join(name, "go.mod")); err == nil {
		return fs.SkipDir
	}
	return nil
}

func slash(name string) string {
	return strings.TrimPrefix(filepath.ToSlash(name), top+"/")
}

// each calls visit with every import of every file.
func each(t *testing.T, visit func(f folder, where, imported string)) {
	for _, f := range folders(t) {
		for _, file := range f.files {
			for _, spec := range file.Imports {
				imported, err := strconv.Unquote(spec.Path.Value)
				if err != nil {
					t.Fatal(err)
				}
				visit(f, at(spec.Pos()), imported)
			}
		}
	}
}

func ours(imported string) (dir string, ok bool) {
	if imported == module {
		return ".", true
	}
	return strings.CutPrefix(imported, module+"/")
}

func under(imported, dir string) bool {
	return imported == dir || strings.HasPrefix(imported, dir+"/")
}

func TestEveryPackageIsDrawn(t *testing.T) {
	exist := map[string]bool{}
	for _, f := range folders(t) {
		exist[f.dir] = true
		if _, ok := imports[f.dir]; !ok && !f.example() {
			t.Errorf("package %s is not drawn: say in imports what it may import", f.dir)
		}
	}
	for dir := range imports {
		if !exist[dir] {
			t.Errorf("package %s is drawn and does not exist", dir)
		}
	}
}

func TestImportGraph(t *testing.T) {
	each(t, func(f folder, where, imported string) {
		dir, ok := ours(imported)
		switch {
		case !ok:
		case under(dir, "examples"):
			t.Errorf("%s: imports %s: nothing imports an example", where, dir)
		case f.example():
			if under(dir, "internal") {
				t.Errorf("%s: imports %s: an example imports what every importer can", where, dir)
			}
		case dir == everywhere && f.dir != "internal/decimal":
		case !slices.Contains(imports[f.dir], dir):
			t.Errorf("%s: %s imports %s, may import %q", where, f.dir, dir, imports[f.dir])
		}
	})
}

func TestOutsiders(t *testing.T) {
	each(t, func(f folder, where, imported string) {
		host, _, _ := strings.Cut(imported, "/")
		if _, ok := ours(imported); ok || !strings.Contains(host, ".") {
			return
		}
		for outsider, importers := range outsiders {
			if under(imported, outsider) {
				if !slices.Contains(importers, f.dir) {
					t.Errorf("%s: %s imports %s, only %q may", where, f.dir, imported, importers)
				}
				return
			}
		}
		t.Errorf("%s: imports %s, which no code outside tests may", where, imported)
	})
}

func TestPure(t *testing.T) {
	each(t, func(f folder, where, imported string) {
		if imported == "reflect" && !slices.Contains(reflectors, f.dir) {
			t.Errorf("%s: %s imports reflect, only %q may", where, f.dir, reflectors)
		}
		if f.example() || slices.Contains(testers, f.dir) || slices.Contains(generators, f.dir) {
			return
		}
		for _, w := range worldly {
			if under(imported, w) {
				t.Errorf("%s: %s imports %s: only values go in and come out", where, f.dir, imported)
			}
		}
	})
	for _, f := range folders(t) {
		if f.example() {
			continue
		}
		inspect(f, func(n ast.Node) {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return
			}
			switch name := types.ExprString(call.Fun); {
			case name == "print", name == "println", strings.HasPrefix(name, "fmt.Print"), strings.HasPrefix(name, "fmt.Scan"):
				t.Errorf("%s: calls %s: only values go in and come out", at(n.Pos()), name)
			}
		})
	}
}

func inspect(f folder, visit func(ast.Node)) {
	for _, file := range f.files {
		ast.Inspect(file.File, func(n ast.Node) bool {
			visit(n)
			return true
		})
	}
}

var (
	floats  = regexp.MustCompile(`^(float(32|64)|complex(64|128)|.*Float(32|64)?)$`)
	integer = regexp.MustCompile(`^(Max|Min)(Int|Uint)(8|16|32|64)?$`)
)

// A float need not be named: it comes from a literal or out of a function.
func TestNoFloats(t *testing.T) {
	for _, f := range folders(t) {
		if slices.Contains(estimators, f.dir) {
			continue
		}
		var drawn *ast.FuncDecl // a Float64 of the root package
		inspect(f, func(n ast.Node) {
			if d, ok := n.(*ast.FuncDecl); ok && f.dir == "." && d.Name.Name == "Float64" {
				drawn = d
			}
			if n != nil && drawn != nil && drawn.Pos() <= n.Pos() && n.Pos() < drawn.End() {
				return
			}
			switch n := n.(type) {
			case *ast.Ident:
				if floats.MatchString(n.Name) {
					t.Errorf("%s: uses %s", at(n.Pos()), n.Name)
				}
			case *ast.BasicLit:
				if n.Kind == token.FLOAT || n.Kind == token.IMAG {
					t.Errorf("%s: uses the literal %s", at(n.Pos()), n.Value)
				}
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok && x.Name == "math" && !integer.MatchString(n.Sel.Name) {
					t.Errorf("%s: uses math.%s", at(n.Pos()), n.Sel.Name)
				}
			}
		})
	}
}

func TestFilesHoldOneIdea(t *testing.T) {
	for _, f := range folders(t) {
		for _, file := range f.files {
			if file.lines > mostLines {
				t.Errorf("%s: %d lines, wanted at most %d", file.name, file.lines, mostLines)
			}
		}
	}
}

// named is a name declared at the top of a package, or a method.
type named struct {
	*ast.Ident
	documented bool
	method     bool
	value      bool // of an enumeration, which is learnt with its type
}

// exported lists what an importer sees. A comment over a group speaks for its
// constants and variables, not for its types.
func exported(f folder) []named {
	var all []named
	add := func(id *ast.Ident, documented, method bool) {
		if id.IsExported() {
			all = append(all, named{Ident: id, documented: documented, method: method})
		}
	}
	for _, file := range f.files {
		for _, decl := range file.Decls {
			switch d := decl.(type) {
			case *ast.FuncDecl:
				if d.Recv == nil {
					add(d.Name, d.Doc != nil, false)
				} else if ast.IsExported(receiver(d.Recv.List[0].Type)) {
					add(d.Name, d.Doc != nil, true)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					switch s := spec.(type) {
					case *ast.TypeSpec:
						add(s.Name, s.Doc != nil || d.Doc != nil && !d.Lparen.IsValid(), false)
					case *ast.ValueSpec:
						for _, id := range s.Names {
							add(id, s.Doc != nil || s.Comment != nil || d.Doc != nil, false)
							if n := len(all); id.IsExported() && d.Tok == token.CONST && d.Lparen.IsValid() {
								all[n-1].value = true
							}
						}
					}
				}
			}
		}
	}
	return all
}

func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.ParenExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.IndexListExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}

func TestPackagesHoldOneIdea(t *testing.T) {
	for _, f := range folders(t) {
		n := 0
		for _, id := range exported(f) {
			if !id.method && !id.value {
				n++
			}
		}
		if n > mostNames {
			t.Errorf("package %s: %d exported names, wanted at most %d", f.dir, n, mostNames)
		}
	}
}

func TestEveryExportedNameIsDocumented(t *testing.T) {
	for _, f := range folders(t) {
		for _, id := range exported(f) {
			if !id.documented {
				t.Errorf("%s: %s has no doc comment", at(id.Pos()), id.Name)
			}
		}
	}
}

// strangers stand for imported packages, so that names are resolved without
// loading them; what stays unresolved belongs to them.
type strangers struct{}

func (strangers) Import(name string) (*types.Package, error) {
	p := types.NewPackage(name, path.Base(name))
	p.MarkComplete()
	return p, nil
}

func TestNothingChanges(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range folders(t) {
		var files []*ast.File
		for _, file := range f.files {
			files = append(files, file.File)
		}
		info := types.Info{Uses: map[*ast.Ident]types.Object{}}
		config := types.Config{Importer: strangers{}, Error: func(error) {}}
		checked, _ := config.Check(f.dir, positions, files, &info)
		for _, name := range checked.Scope().Names() {
			v, ok := checked.Scope().Lookup(name).(*types.Var)
			if !ok {
				continue
			}
			key := f.dir + " " + name
			seen[key] = true
			if variables[key] == "" {
				t.Errorf("%s: variable %s: if it never changes, say why in variables under %q", at(v.Pos()), name, key)
			}
		}
		inspect(f, func(n ast.Node) {
			for _, e := range changed(n) {
				if id := base(e); id != nil && info.Uses[id] != nil && info.Uses[id].Parent() == checked.Scope() {
					t.Errorf("%s: changes the variable %s of the package", at(n.Pos()), id.Name)
				}
			}
		})
	}
	for key := range variables {
		if !seen[key] {
			t.Errorf("variables lists %q, which does not exist", key)
		}
	}
}

// changed returns the operands that n writes to.
func changed(n ast.Node) []ast.Expr {
	switch n := n.(type) {
	case *ast.AssignStmt:
		return n.Lhs
	case *ast.IncDecStmt:
		return []ast.Expr{n.X}
	case *ast.RangeStmt:
		return []ast.Expr{n.Key, n.Value}
	case *ast.CallExpr:
		if id, ok := n.Fun.(*ast.Ident); ok && slices.Contains([]string{"clear", "copy", "delete"}, id.Name) {
			return n.Args[:min(1, len(n.Args))]
		}
	}
	return nil
}

// base is the variable that e is, or is a part of.
func base(e ast.Expr) *ast.Ident {
	switch e := e.(type) {
	case *ast.Ident:
		return e
	case *ast.IndexExpr:
		return base(e.X)
	case *ast.SelectorExpr:
		return base(e.X)
	case *ast.SliceExpr:
		return base(e.X)
	case *ast.StarExpr:
		return base(e.X)
	case *ast.ParenExpr:
		return base(e.X)
	}
	return nil
}

// A path of the machine it was written on says nothing on another.
func TestNoMachinePaths(t *testing.T) {
	machine := regexp.MustCompile(`(^|[^\w.-])/(home|root|tmp|Users|work)/`)
	ignored := ignored(t)
	err := filepath.WalkDir(top, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		short := slash(name)
		if d.IsDir() {
			if d.Name() == ".git" || strings.HasSuffix(short, "testdata/fuzz") || strings.HasSuffix(short, "testdata/rapid") {
				return fs.SkipDir
			}
			return nil
		}
		if !d.Type().IsRegular() || d.Name() == ".git" || slices.ContainsFunc(ignored, func(p string) bool { ok, _ := path.Match(p, d.Name()); return ok }) {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if bytes.IndexByte(text, 0) >= 0 {
			return nil // built, not written
		}
		number := 0
		for line := range strings.Lines(string(text)) {
			number++
			if machine.MatchString(line) {
				t.Errorf("%s:%d: a path of some machine: %s", short, number, strings.TrimSpace(line))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func ignored(t *testing.T) []string {
	text, err := os.ReadFile(filepath.Join(top, ".gitignore"))
	if err != nil {
		t.Fatal(err)
	}
	return strings.Fields(string(text))
}
