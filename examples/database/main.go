// Command database keeps a shop in tables. It reads supplies, products, ways of selling, fees and
// rules from a database, decides the prices, and writes the list, its reasons and its history back.
//
//	go run .                      a demo shop in memory
//	go run . -db shop.sqlite      the same in a file, which is made where there is none
//	go run . -dsn postgres://…    the same in PostgreSQL
//
// The exit status is 0 when prices are decided, 1 when rules conflict, 2 when tables or flags have
// mistakes, and 3 when the database fails. A list is written with 0 alone.
package main

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

func main() {
	day := quoin.MustDate(time.Now().Format(time.DateOnly))
	flag.TextVar(&day, "date", day, "the `day` of a new list")
	file := flag.String("db", "", "the SQLite `file` of the shop")
	dsn := flag.String("dsn", "", "the `URL` of the shop in PostgreSQL")
	flag.Parse()
	if flag.NArg() > 0 || *dsn != "" && *file != "" || day.IsZero() {
		fmt.Fprintf(os.Stderr, "found %q, wanted -db FILE or -dsn URL, and -date DAY\n", os.Args[1:])
		os.Exit(2)
	}
	ctx, _ := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status, err := run(ctx, *file, *dsn, day, pricelist.Decide, os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(status)
}

var errChanged = errors.New("the shop was changed while its prices were decided")

type decider func(pricelist.Document) (pricelist.Answer, error)

func run(ctx context.Context, file, dsn string, day quoin.Date, decide decider, out io.Writer) (status int, err error) {
	s, err := open(ctx, file, dsn)
	if err != nil {
		return 3, fmt.Errorf("opening the shop: %w", err)
	}
	defer s.db.Close()
	answer, said, err := s.revise(ctx, day, decide)
	if mistakes := (quoin.Problems{}); errors.As(err, &mistakes) {
		return 2, err
	} else if err != nil {
		return 3, err
	}
	fmt.Fprintf(out, "%s\n%s\n", sheet.Text(answer, 80), said)
	return min(len(answer.Conflict), 1), nil
}

// revise brings the list up to date with the shop, and says what it did. Where the shop is changed
// in the meantime it reads and decides again.
func (s *store) revise(ctx context.Context, day quoin.Date, decide decider) (answer pricelist.Answer, said string, err error) {
	for range 20 {
		var doc pricelist.Document
		var text, stored []byte
		err = s.within(ctx, sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}, func(w *work) {
			doc, text = w.document()
			w.get(&stored, "SELECT (SELECT answer FROM price_history WHERE standing_hash = $1 AND id = (SELECT max(id) FROM price_history))", hash(text))
		})
		if err != nil {
			return answer, "", err
		}
		if stored != nil {
			return answer, "Nothing has changed since this list was written.", json.Unmarshal(stored, &answer)
		}
		if answer, err = decide(doc); err != nil || len(answer.Conflict) > 0 {
			return answer, "Nothing was written.", err
		}
		err = s.within(ctx, sql.TxOptions{Isolation: sql.LevelRepeatableRead}, func(w *work) { w.write(day, text, answer) })
		var refused interface{ SQLState() string } // of PostgreSQL, where another wrote a row first
		if !errors.Is(err, errChanged) && !(errors.As(err, &refused) && refused.SQLState() == "40001") {
			return answer, "This list was written to the tables.", err
		}
	}
	return answer, "", err
}

func hash(text []byte) string { return fmt.Sprintf("%x", sha256.Sum256(text)) }

// write writes a list, its reasons and its history, if the shop is still what it was decided from.
func (w *work) write(day quoin.Date, from []byte, answer pricelist.Answer) {
	w.exec("UPDATE shop SET position = 1") // locks the row: who comes second waits, and is refused
	if _, now := w.document(); w.err == nil && hash(now) != hash(from) {
		w.err = errChanged
	}
	id := 0
	w.get(&id, "SELECT coalesce(max(id), 0) + 1 FROM price_history")
	w.exec("DELETE FROM reasons")
	for _, p := range answer.Products {
		w.exec("INSERT INTO prices (product, price, list) VALUES ($1, $2, $3) ON CONFLICT (product) DO UPDATE SET price = $2, list = $3", p.ID, p.Price, id)
		for side, not := range map[string]pricelist.WhyNot{"lower": p.Lower, "higher": p.Higher} {
			why, _ := not.Why()
			for i, by := range why.By {
				w.exec("INSERT INTO reasons (product, side, position, refused, rule, channel, asked, got) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
					p.ID, side, i+1, by.Price, by.Rule, by.Channel, by.Asked.String(), by.Got.String())
			}
		}
	}
	_, standing := w.document()
	whole, err := json.Marshal(answer)
	w.err = errors.Join(w.err, err)
	w.exec("INSERT INTO price_history (id, decided_on, document_hash, standing_hash, document, answer) VALUES ($1, $2, $3, $4, $5, $6)",
		id, day, hash(from), hash(standing), string(from), string(whole))
}
