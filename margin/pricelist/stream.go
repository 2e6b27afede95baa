package pricelist

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"reflect"
	"strconv"
	"strings"

	"example.com/quoin"
)

// Lines decides lots that stand in lines of JSON, one in each, and yields an answer
// for each as Decide does. Empty lines are passed over. Lots are decoded where they
// are decided. A line may have up to 16 MiB; a longer one, or a reader that fails,
// ends it with an error. Paths of problems are under lots[i], and their lines are
// those of the reader.
func (b Batch) Lines(ctx context.Context, s *Shop, r io.Reader) iter.Seq2[Answer, error] {
	return b.run(ctx, s, func(yield func(job) bool) {
		lines := bufio.NewScanner(r)
		lines.Buffer(nil, longestLine)
		i, line := 0, 0
		for lines.Scan() {
			line++
			if len(bytes.TrimSpace(lines.Bytes())) == 0 {
				continue
			}
			text, at, before := bytes.Clone(lines.Bytes()), quoin.InList("lots", i), line-1
			i++
			if !yield(func(d *desk) (Answer, error) {
				a, err := d.read(text, b.Bare)
				return a, under(at, lower(err, before))
			}) {
				return
			}
		}
		if err := lines.Err(); err != nil {
			yield(failing(fmt.Errorf("line %d: %w", line+1, err)))
		}
	})
}

const longestLine = 16 << 20

func failing(err error) job {
	return func(*desk) (Answer, error) { return Answer{}, err }
}

// lower moves the lines of problems down.
func lower(err error, by int) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return err
	}
	for i := range ps {
		if ps[i].Line > 0 {
			ps[i].Line += by
		}
	}
	return ps
}

// read decodes and decides a lot.
func (d *desk) read(text []byte, bare bool) (Answer, error) {
	dec := decoder{json: newTokens(text), collector: *d.collector()}
	var lot Lot
	if !dec.read(reflect.ValueOf(&lot).Elem(), text) {
		return Answer{}, located(text, dec.all())
	}
	a, err := d.checked(lot, &dec.collector, bare)
	return a, located(text, err)
}

func located(text []byte, err error) error {
	if ps, ok := err.(quoin.Problems); ok {
		locate(text, ps)
	}
	return err
}

// Document decides a document of any length from a reader, its products lot by lot:
// products of one design that stand one after the other are a lot, so that ladders
// between their sizes hold, and each other product is one by itself. Its field products
// has to be the last, so that all else is known when they come; of their ids, that none
// stands there twice is not checked. It yields an answer for each lot as Decide does, with
// paths of problems under products[i]. What is wrong with the rest of the document is
// yielded first, alone.
func (b Batch) Document(ctx context.Context, r io.Reader) iter.Seq2[Answer, error] {
	return func(yield func(Answer, error) bool) {
		d := &documentReader{json: json.NewDecoder(r)}
		d.json.UseNumber()
		s, err := d.shop()
		if err != nil {
			yield(Answer{}, err)
			return
		}
		for a, err := range b.run(ctx, s, d.products(b.Bare)) {
			if !yield(a, err) {
				return
			}
		}
	}
}

// documentReader reads a document up to its products, and then these.
type documentReader struct {
	json *json.Decoder
	head bytes.Buffer // all fields before the products
	list bool         // it stands before the products
}

// shop opens what stands before the products.
func (d *documentReader) shop() (*Shop, error) {
	if err := d.fields(); err != nil {
		return nil, quoin.Problems{d.bad(err)}
	}
	if !d.list {
		return nil, quoin.Problems{{Code: MissingField, Severity: quoin.Fault, Path: "products", Found: "nothing", Wanted: "the field products, as the last"}}
	}
	return DecodeShop(d.head.Bytes())
}

// fields copies the fields of the document up to its products.
func (d *documentReader) fields() error {
	if t, err := d.json.Token(); err != nil || t != json.Delim('{') {
		return orElse(err, "an object is wanted")
	}
	d.head.WriteByte('{')
	for d.json.More() {
		name, err := d.json.Token()
		if err != nil {
			return err
		}
		if name == "products" {
			t, err := d.json.Token()
			if err != nil || t != json.Delim('[') {
				return orElse(err, "products are not a list")
			}
			d.list = true
			break
		}
		var value json.RawMessage
		if err := d.json.Decode(&value); err != nil {
			return err
		}
		if d.head.Len() > 1 {
			d.head.WriteByte(',')
		}
		key, _ := json.Marshal(name)
		d.head.Write(key)
		d.head.WriteByte(':')
		d.head.Write(value)
	}
	d.head.WriteByte('}')
	return nil
}

// orElse is the error there is, or one that says what.
func orElse(err error, what string) error {
	if err != nil {
		return err
	}
	return errors.New(what)
}

func (d *documentReader) bad(err error) quoin.Problem {
	p := syntaxProblem(err, int(d.json.InputOffset()))
	p.Severity = quoin.Fault
	return p
}

// products are the jobs of the lots that follow, up to the end of the document.
func (d *documentReader) products(bare bool) iter.Seq[job] {
	return func(yield func(job) bool) {
		lot, seen := rawLot{}, make(map[string]bool) // designs
		var err error
		for i := 0; err == nil && d.json.More(); i++ {
			var value json.RawMessage
			if err = d.json.Decode(&value); err != nil {
				break
			}
			design := designOf(value)
			if !lot.takes(design) {
				if !yield(lot.job(bare)) {
					return
				}
				lot = rawLot{}
			}
			if len(lot.texts) == 0 {
				lot = newRawLot(design, i, seen)
			}
			lot.add(value)
			if design == "" { // nothing that follows can belong to it
				if !yield(lot.job(bare)) {
					return
				}
				lot = rawLot{}
			}
		}
		if len(lot.texts) > 0 && !yield(lot.job(bare)) {
			return
		}
		if err == nil {
			err = d.end()
		}
		if err != nil {
			yield(failing(quoin.Problems{d.bad(err)}))
		}
	}
}

// rawLot is products of a document that are decided together, not yet decoded.
type rawLot struct {
	design string
	first  int // its first product
	texts  []json.RawMessage
	size   int // of the texts
	fault  error
}

// newRawLot begins a lot with product i. A design that was seen before stands apart.
func newRawLot(design string, i int, seen map[string]bool) rawLot {
	lot := rawLot{design: design, first: i}
	if design != "" && seen[design] {
		lot.fault = parted(design, i)
	}
	if design != "" {
		seen[design] = true
	}
	return lot
}

// takes reports whether a product that shows a design goes into the lot.
func (l *rawLot) takes(design string) bool {
	return len(l.texts) == 0 || design != "" && design == l.design
}

// add keeps no more of a lot that is too long.
func (l *rawLot) add(text json.RawMessage) {
	if l.size += len(text); l.size > longestLine {
		l.fault = quoin.Problems{tooLong(*l)}
		return
	}
	l.texts = append(l.texts, text)
}

func (l *rawLot) job(bare bool) job {
	if l.fault != nil {
		return failing(l.fault)
	}
	lot := *l
	return func(at *desk) (Answer, error) { return at.readProducts(lot.texts, lot.first, bare) }
}

// designOf is the design that a product shows, as far as it can be read.
func designOf(text json.RawMessage) string {
	if !bytes.Contains(text, []byte(`"design"`)) {
		return ""
	}
	var p struct{ Design json.RawMessage }
	var design string
	if json.Unmarshal(text, &p) != nil || json.Unmarshal(p.Design, &design) != nil {
		return "" // which is said where it is decoded
	}
	return design
}

func parted(design string, i int) error {
	return quoin.Problems{{
		Code: DesignApart, Severity: quoin.Fault, Path: quoin.InList("products", i).Field("design").String(),
		Found:  quoin.Quoted(design) + " again, behind products of other designs",
		Wanted: "all products of a design one after the other", Remedy: "sort the products by their design, or decide the document whole",
	}}
}

func tooLong(l rawLot) quoin.Problem {
	return quoin.Problem{
		Code: TooMany, Severity: quoin.Fault, Path: quoin.InList("products", l.first).String(),
		Found: fmt.Sprintf("more than %d bytes of products of the design %s", longestLine, quoin.Quoted(l.design)), Wanted: "fewer, since they are decided together",
	}
}

// end checks that the products are the last field, and the document all there is.
func (d *documentReader) end() error {
	for _, want := range []json.Delim{']', '}'} {
		t, err := d.json.Token()
		if err != nil {
			return err
		}
		if t != want {
			return fmt.Errorf("%v behind the products, which have to be the last field", described(t))
		}
	}
	if _, err := d.json.Token(); err != io.EOF {
		return errors.New("something after the end of the document")
	}
	return nil
}

// readProducts decodes and decides products of a document that are a lot, of which the
// first has an index.
func (d *desk) readProducts(texts []json.RawMessage, first int, bare bool) (Answer, error) {
	c := *d.collector()
	lot := Lot{Products: make([]Product, len(texts))}
	for i, text := range texts {
		dec := decoder{json: newTokens(text), collector: c}
		t, err := dec.json.Token()
		if err == nil {
			err = dec.value(t, (*path)(nil).field("products").at(i), field{}, reflect.ValueOf(&lot.Products[i]).Elem())
		}
		if err != nil {
			dec.unread(err, text)
			return Answer{}, renumbered(dec.all(), first)
		}
		c = dec.collector
	}
	a, err := d.checked(lot, &c, bare)
	return a, renumbered(err, first)
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
