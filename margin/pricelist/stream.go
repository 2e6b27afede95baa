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

// Document decides a document of any length from a reader, its products one by one,
// each a lot of its own. Its field products has to be the last, so that all else is
// known when they come; of their ids, that none stands there twice is not checked. It
// yields an answer for each product as Decide does, with paths of problems under
// products[i]. What is wrong with the rest of the document is yielded first, alone.
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

// products are the jobs of the products that follow, up to the end of the document.
func (d *documentReader) products(bare bool) iter.Seq[job] {
	return func(yield func(job) bool) {
		for i := 0; d.json.More(); i++ {
			var value json.RawMessage
			if err := d.json.Decode(&value); err != nil {
				yield(failing(quoin.Problems{d.bad(err)}))
				return
			}
			if !yield(func(at *desk) (Answer, error) { return at.readProduct(value, i, bare) }) {
				return
			}
		}
		if err := d.end(); err != nil {
			yield(failing(quoin.Problems{d.bad(err)}))
		}
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

// readProduct decodes and decides one product of a document.
func (d *desk) readProduct(text []byte, i int, bare bool) (Answer, error) {
	dec := decoder{json: newTokens(text), collector: *d.collector()}
	lot := Lot{Products: make([]Product, 1)}
	at := (*path)(nil).field("products").at(0)
	t, err := dec.json.Token()
	if err == nil {
		err = dec.value(t, at, field{}, reflect.ValueOf(&lot.Products[0]).Elem())
	}
	if err != nil {
		dec.unread(err, text)
		return Answer{}, renumbered(dec.all(), i)
	}
	a, err := d.checked(lot, &dec.collector, bare)
	return a, renumbered(err, i)
}

// renumbered has problems stand in the product with an index, which was the first of
// its lot.
func renumbered(err error, i int) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return err
	}
	for n, p := range ps {
		if rest, ok := strings.CutPrefix(p.Path, "products[0]"); ok {
			ps[n].Path = quoin.InList("products", i).String() + rest
		}
	}
	return ps
}
