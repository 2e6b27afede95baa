package quoin_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"example.com/quoin"
)

// kinds is every exported type of the package, those of a type by examples; functions is
// every exported function that is no method.
var kinds = map[string][]any{
	"Amount": {quoin.Amount{}}, "Rate": {quoin.Rate{}}, "Factor": {quoin.Factor{}}, "Quantity": {quoin.Quantity{}}, "Unit": {quoin.Unit("")},
	"Size": {quoin.Size{}}, "Currency": {quoin.Currency{}}, "Date": {quoin.Date{}}, "Rounding": {quoin.Rounding(0), quoin.Rounding(77)}, "Grid": {quoin.Grid{}}, "Per": {quoin.Per("")},
	"Optional": {quoin.Optional[quoin.Amount]{}, quoin.Optional[int64]{}, quoin.Some(quoin.Size{}), quoin.Some(any(nil)), quoin.Some([]int(nil))},
	"Range":    {quoin.Range[quoin.Amount]{}, quoin.Range[int64]{}, quoin.Range[any]{}, quoin.Range[[]int]{}},
	"Path":     {quoin.Path{}}, "Figure": {quoin.Figure{}, quoin.Quantity{}.Figure(), quoin.Amount{}.Figure()}, "FigureKind": {quoin.FigureKind("")},
	"Step": {quoin.Step{}}, "StepCode": {quoin.StepCode("")}, "Op": {quoin.Op("")}, "Operand": {quoin.Operand{}}, "Form": {quoin.Form("")},
	"Trail": {quoin.Trail{}, (*quoin.Trail)(nil)}, "Origin": {quoin.Origin(nil)}, "Journal": {quoin.Journal{}},
	"Problem": {quoin.Problem{}}, "Problems": {quoin.Problems{}, quoin.Problems{{}}}, "Severity": {quoin.Severity("")}, "Code": {quoin.Code("")}, "Arg": {quoin.Arg{}},
}

var functions = map[string]any{
	"AmountOf": quoin.AmountOf, "Ancestors": quoin.Ancestors, "Between": quoin.Between[quoin.Amount], "FactorOf": quoin.FactorOf, "Find": quoin.Find,
	"Given": quoin.Given, "GivenOr": quoin.GivenOr, "InField": quoin.InField, "InList": quoin.InList, "MustAmount": quoin.MustAmount,
	"MustCurrency": quoin.MustCurrency, "MustDate": quoin.MustDate, "MustFactor": quoin.MustFactor, "MustQuantity": quoin.MustQuantity, "MustRate": quoin.MustRate, "MustSize": quoin.MustSize,
	"NewGrid": quoin.NewGrid, "NewSize": quoin.NewSize, "NewTrail": quoin.NewTrail, "Silent": quoin.Silent, "OnDefault": quoin.OnDefault,
	"ParseAmount": quoin.ParseAmount, "ParseCurrency": quoin.ParseCurrency, "ParseFactor": quoin.ParseFactor, "ParseDate": quoin.ParseDate,
	"ParseQuantity": quoin.ParseQuantity, "ParseRate": quoin.ParseRate, "ParseRounding": quoin.ParseRounding, "ParseSize": quoin.ParseSize,
	"Replay": quoin.Replay, "Some": quoin.Some[quoin.Amount],
}

// TestNothingIsAsked calls everything there is with nothing at all: zero values work as
// the empty thing, or panic saying what to do.
func TestNothingIsAsked(t *testing.T) {
	calls := 0
	for name, f := range functions {
		calls += callWithNothing(t, name, reflect.ValueOf(f))
	}
	for name, values := range kinds {
		for _, v := range values {
			at := reflect.ValueOf(v)
			if at.Kind() != reflect.Pointer {
				at = reflect.New(reflect.TypeOf(v))
				at.Elem().Set(reflect.ValueOf(v))
			}
			for i := range at.NumMethod() {
				calls += callWithNothing(t, name+"."+at.Type().Method(i).Name, at.Method(i))
			}
		}
	}
	if calls < 300 {
		t.Errorf("only %d calls", calls)
	}
}

// callWithNothing calls f with zero values, and once more where it takes a list, with
// one in it.
func callWithNothing(t *testing.T, name string, f reflect.Value) (calls int) {
	var in []reflect.Value
	for i := range f.Type().NumIn() {
		of := f.Type().In(i)
		if of == reflect.TypeFor[fmt.State]() {
			in = append(in, reflect.ValueOf(state{}))
			continue
		}
		in = append(in, reflect.Zero(of))
	}
	lists := [][]reflect.Value{in}
	for i, v := range in {
		if v.Kind() == reflect.Slice {
			one := append([]reflect.Value(nil), in...)
			one[i] = reflect.MakeSlice(v.Type(), 1, 1)
			lists = append(lists, one)
		}
	}
	for _, args := range lists {
		calls++
		said := panicOf(func() {
			if f.Type().IsVariadic() {
				f.CallSlice(args)
			} else {
				f.Call(args)
			}
		})
		if said != "" && !strings.HasPrefix(said, "quoin: ") {
			t.Errorf("%s of %v panics: %s", name, args, said)
		}
	}
	return calls
}

// state is a fmt.State that keeps nothing.
type state struct{}

func (state) Write(b []byte) (int, error) { return len(b), nil }
func (state) Width() (int, bool)          { return 0, false }
func (state) Precision() (int, bool)      { return 0, false }
func (state) Flag(int) bool               { return false }

// The tables above have all that the package exports.
func TestNothingIsForgotten(t *testing.T) {
	names, err := filepath.Glob("*.go")
	if err != nil || len(names) == 0 {
		t.Fatal(err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if _, known := functions[d.Name.Name]; d.Recv == nil && d.Name.IsExported() && !known {
					t.Errorf("the function %s is not called", d.Name.Name)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if s, ok := s.(*ast.TypeSpec); ok && s.Name.IsExported() && len(kinds[s.Name.Name]) == 0 {
						t.Errorf("the type %s is not called", s.Name.Name)
					}
				}
			}
		}
	}
}

// What divides says by which name, and what no == compares says what it needs.
func TestPanicsSayWhatToDo(t *testing.T) {
	amount, factor := quoin.MustAmount("1"), quoin.FactorOf(1)
	almost := quoin.MustFactor("0.0000000000000001").Over(quoin.FactorOf(3))
	for want, f := range map[string]func(){
		"Amount.Over: division by 0":  func() { amount.Over(quoin.Factor{}) },
		"Amount.Ratio: division by 0": func() { amount.Ratio(quoin.AmountOf(0, 2)) },
		"Amount.Share: division by 0": func() { amount.Share(amount.Sub(amount)) },
		"Amount.Mod: division by 0":   func() { amount.Mod(amount.Times(almost)) }, // 0 on 12 places
		"Factor.Over: division by 0":  func() { factor.Over(quoin.FactorOf(0)) },
		"methods Equal and IsZero":    func() { quoin.Some([]int{1}).Equal(quoin.Some([]int{1})) },
		"MustSize: ":                  func() { quoin.MustSize("") },
		"NewTrail":                    func() { (*quoin.Trail)(nil).Steps() },
	} {
		if said := panicOf(f); !strings.HasPrefix(said, "quoin: ") || !strings.Contains(said, want) {
			t.Errorf("panics with %q, want %q", said, want)
		}
	}
}
