package pricelist

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Document decides a document of any length from a reader, its products lot by lot. Consecutive
// products of one design are a lot, so that rules between their sizes work. Every other product
// is a lot of its own. The field products must be the last, so that everything else is known
// when products come. Ids that are given twice are not noticed. It yields an answer for each
// lot as Decide does, with paths of problems under products[i], and line and column in the
// text. What is wrong with the rest of the document is yielded first, alone.
//
// An error of the reader, or text that is not JSON, is yielded with its line, wrapped, after
// the answers to all lots before. It ends the stream, with or without GoOn. The product, or the
// products of a design, that it interrupts get no answer.
func (b Batch) Document(ctx context.Context, r io.Reader) iter.Seq2[Answer, error] {
	var fault error
	if r == nil {
		fault = noReader()
	}
	return b.run(ctx, fault, func(ctx context.Context, yield func(work) bool) {
		from := &reading{ctx: ctx, from: r}
		d := newDocumentReader(from)
		s, err := d.shop()
		if err != nil {
			yield(failing(err))
			return
		}
		d.out = newBlocks(from, yield, func(l *rawLot) (Answer, error) { return l.decide(s, b.Detail) })
		if err := d.products(); d.out.flush() && err != nil {
			yield(failing(d.fault(err)))
		}
	})
}

// documentReader reads a document up to its products, and then these.
type documentReader struct {
	json *form.Stream
	at   *positions
	out  *blocks
}

func newDocumentReader(r io.Reader) *documentReader {
	at := &positions{head: new(bytes.Buffer)}
	return &documentReader{json: form.NewStream(io.TeeReader(bufio.NewReaderSize(form.Unmarked(r), blockSize), at)), at: at}
}

// shop opens what stands before the products.
func (d *documentReader) shop() (*Shop, error) {
	found, err := d.fields()
	if err != nil {
		return nil, d.fault(err)
	}
	if !found {
		return nil, quoin.Problems{{Code: quoin.MissingField, Severity: quoin.Fault, Path: "products", Found: "nothing", Wanted: "the field products, as the last"}}
	}
	text := slices.Concat(d.at.head.Bytes()[:d.json.Offset()], []byte("]}"))
	d.at.head = nil
	return DecodeShop(text)
}

// fields passes over the fields of the document, into the list of its products; false
// where it has none.
func (d *documentReader) fields() (bool, error) {
	if err := d.json.Open(true); err != nil {
		return false, err
	}
	for d.json.More() {
		name, err := d.json.Name()
		if err != nil {
			return false, err
		}
		if name == "products" {
			return true, d.json.Open(false)
		}
		if _, err := d.json.Value(); err != nil {
			return false, err
		}
	}
	return false, d.json.Close()
}

// fault is an error in reading the document: what the reader says, or what is wrong with the
// text.
func (d *documentReader) fault(err error) error {
	if of, ok := errors.AsType[readError](err); ok {
		return cutShort(of, d.at.last())
	}
	p, offset := d.json.Fault(err)
	p.Line, p.Column = d.at.of(offset)
	return quoin.Problems{p}
}

// products hands out the lots that follow, up to the end of the document. It returns what is
// wrong with its text.
func (d *documentReader) products() error {
	lot, seen := rawLot{}, make(map[string]bool) // designs
	for i := 0; d.json.More(); i++ {
		value, err := d.json.Value()
		if err != nil {
			return err
		}
		design := designOf(value)
		if len(lot.texts) > 0 && (design == "" || design != lot.design) {
			if !d.out.add(lot) {
				return nil
			}
			lot = rawLot{}
		}
		p := placed{text: d.out.keep(value)}
		p.line, p.column = d.at.of(d.json.Offset() - int64(len(value)))
		if len(lot.texts) == 0 {
			lot = newRawLot(design, i, p, seen)
		}
		lot.add(p, d.out)
		if design == "" { // nothing that follows can belong to it
			if !d.out.add(lot) {
				return nil
			}
			lot = rawLot{}
		}
	}
	// The list has to end before the lot is known to be whole.
	if err := d.json.Close(); err != nil {
		return err
	}
	if len(lot.texts) > 0 && !d.out.add(lot) {
		return nil
	}
	return d.end()
}

// designOf is the design that the text of a product says. Most say none.
func designOf(product []byte) string {
	if !bytes.Contains(product, []byte(`"design"`)) && bytes.IndexByte(product, '\\') < 0 {
		return ""
	}
	return form.TextOf(product, "design")
}

// placed is a product as it is written, and where.
type placed struct {
	text         []byte
	line, column int
}

// rawLot is products of a document that are decided together, not yet decoded.
type rawLot struct {
	design string
	first  int    // its first product
	begins placed // which it begins with
	texts  []placed
	size   int // of the texts
	fault  error
}

// newRawLot begins a lot with product i. A design that was seen before stands apart.
func newRawLot(design string, i int, p placed, seen map[string]bool) rawLot {
	lot := rawLot{design: design, first: i, begins: p}
	if design != "" && seen[design] {
		lot.fault = quoin.Problems{parted(design, i, p)}
	}
	if design != "" {
		seen[design] = true
	}
	return lot
}

// add keeps no more of a lot that is too long.
func (l *rawLot) add(p placed, out *blocks) {
	if l.size += len(p.text); l.size > longestLine {
		l.fault = quoin.Problems{tooLong(*l)}
		return
	}
	if l.texts == nil {
		l.texts = out.one(p)
		return
	}
	l.texts = append(l.texts, p)
}

func (l *rawLot) decide(s *Shop, detail Detail) (Answer, error) {
	if l.fault != nil {
		return Answer{}, l.fault
	}
	a, err := s.readProducts(l.texts, detail)
	return a, renumbered(err, l.first)
}

func parted(design string, i int, p placed) quoin.Problem {
	return quoin.Problem{
		Code: DesignApart, Severity: quoin.Fault, Path: quoin.InList("products", i).Field("design").String(), Line: p.line, Column: p.column,
		Found:  prose.Quoted(design) + " again, behind products of other designs",
		Wanted: "all products of a design one after the other", Remedy: "sort the products by their design, or decide the document whole",
	}
}

func tooLong(l rawLot) quoin.Problem {
	return quoin.Problem{
		Code: quoin.TooMany, Severity: quoin.Fault, Path: quoin.InList("products", l.first).String(), Line: l.begins.line, Column: l.begins.column,
		Found: fmt.Sprintf("more than %d bytes of products of the design %s", longestLine, prose.Quoted(l.design)), Wanted: "fewer, since they are decided together",
	}
}

// end checks that the products are the last field, and the document all there is.
func (d *documentReader) end() error {
	if d.json.More() {
		if _, err := d.json.Name(); err != nil {
			return err
		}
		return errors.New("a field behind the products, which have to be the last")
	}
	if err := d.json.Close(); err != nil {
		return err
	}
	return d.json.End()
}

// readProducts decodes and decides products of a document that are a lot.
func (s *Shop) readProducts(texts []placed, detail Detail) (Answer, error) {
	if detail == Figures && len(texts) == 1 {
		if a, ok := s.readPlanned(texts[0].text); ok {
			return a, nil
		}
	}
	var c form.Collector
	lot := Lot{Products: make([]Product, len(texts))}
	for i, p := range texts {
		if !c.ReadAt(productAt(i), p.text, &lot.Products[i]) {
			return Answer{}, whereRead(c.All(), texts)
		}
	}
	a, err := s.decide(lot, &c, detail)
	return a, whereRead(err, texts)
}

// readPlanned reads and prices a product by the plan of the shop, where that can.
func (s *Shop) readPlanned(text []byte) (a Answer, ok bool) {
	if s.plan == nil {
		return a, false
	}
	m := s.plan.memory()
	defer s.plan.memories.Put(m)
	if !m.read(s.sharedCosts, text) {
		return a, false
	}
	return s.plan.price(m)
}

func productAt(i int) *path { return (*path)(nil).Field("products").At(i) }

// whereRead gives problems with products the line and the column that they have in the
// document.
func whereRead(err error, texts []placed) error {
	if ps, ok := err.(quoin.Problems); ok {
		for i, p := range texts {
			form.LocateIn(p.text, productAt(i), p.line, p.column, ps)
		}
	}
	return err
}

// renumbered has problems stand in the product of the document that is so many behind
// the one of the lot.
func renumbered(err error, by int) error {
	ps, ok := err.(quoin.Problems)
	if !ok || by == 0 {
		return err
	}
	for n, p := range ps {
		rest, ok := strings.CutPrefix(p.Path, "products[")
		index, rest, closed := strings.Cut(rest, "]")
		if i, err := strconv.Atoi(index); ok && closed && err == nil {
			ps[n].Path = quoin.InList("products", i+by).String() + rest
		}
	}
	return ps
}
