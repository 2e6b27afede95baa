package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"example.com/quoin"
)

// width is the most characters to a line.
const width = 79

// page is text in lines of at most width, unless a single word is longer.
type page struct{ b strings.Builder }

func (p *page) title(text string) {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
	fmt.Fprintf(&p.b, "%s\n\n", text)
}

// line writes words, wrapped, with those lines that follow two deeper.
func (p *page) line(indent int, format string, args ...any) {
	at, deep := 0, indent
	for word := range strings.FieldsSeq(fmt.Sprintf(format, args...)) {
		long := utf8.RuneCountInString(word)
		switch {
		case at == 0:
			p.b.WriteString(strings.Repeat(" ", deep))
			at = deep
		case at+1+long > width:
			deep = indent + 2
			p.b.WriteString("\n" + strings.Repeat(" ", deep))
			at = deep
		default:
			p.b.WriteByte(' ')
			at++
		}
		p.b.WriteString(word)
		at += long
	}
	p.b.WriteByte('\n')
}

// row writes a name and, to the right, columns that end where those of every other
// row do; a name too long for them gets a line of its own.
func (p *page) row(indent int, name string, columns ...string) {
	right := ""
	for _, c := range columns {
		right += fmt.Sprintf("%10s", c)
	}
	room := width - indent - len(right)
	if utf8.RuneCountInString(name) > room {
		p.line(indent, "%s", name)
		name = ""
	}
	fmt.Fprintf(&p.b, "%s%-*s%s\n", strings.Repeat(" ", indent), room, name, right)
}

func (p *page) gap() { p.b.WriteByte('\n') }

func (p *page) cautions(all []string) {
	p.gap()
	for _, c := range all {
		p.line(0, "%s", c)
	}
}

func money(a quoin.Amount) string { return fmt.Sprintf("%.2f", a) }

func maybe(a quoin.Optional[quoin.Amount]) string {
	v, ok := a.Get()
	if !ok {
		return "-"
	}
	return money(v)
}

// signed is a change, with a sign before it.
func signed(a quoin.Amount) string {
	if a.Sign() <= 0 {
		return money(a)
	}
	return "+" + money(a)
}

func percent(r quoin.Rate) string { return fmt.Sprintf("%.0f%%", r) }

// number is a factor with its places cut to so many.
func number(f quoin.Factor, places int) string {
	return fmt.Sprintf("%.*f", places, f)
}

// words is a code as it is said.
func words[T ~string](code T) string { return strings.ReplaceAll(string(code), "_", " ") }

func list[T any](items []T, say func(T) string) string {
	said := make([]string, len(items))
	for i, v := range items {
		said[i] = say(v)
	}
	return strings.Join(said, ", ")
}
