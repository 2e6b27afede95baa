package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"modernc.org/sqlite"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

var day = quoin.MustDate("2026-03-01")

// The test binary is also the other process of some tests: with -child it runs the program on a
// database and waits where the test asks it to.
func TestMain(m *testing.M) {
	if kind := os.Getenv("DATABASE_CHILD"); kind != "" {
		os.Exit(child(kind))
	}
	status := m.Run()
	if c, err := shared(); err == nil {
		if err := c.stop("fast"); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		os.RemoveAll(c.folder)
	}
	os.Exit(status)
}

func child(kind string) int {
	decide := pricelist.Decide
	in := bufio.NewReader(os.Stdin)
	if kind == "wait" { // once, between reading and writing
		var once sync.Once
		decide = func(doc pricelist.Document) (pricelist.Answer, error) {
			once.Do(func() {
				fmt.Println("waiting")
				in.ReadString('\n')
			})
			return pricelist.Decide(doc)
		}
	}
	sqlite.MustRegisterScalarFunction("stop_here", 0, func(*sqlite.FunctionContext, []driver.Value) (driver.Value, error) {
		fmt.Println("waiting")
		select {} // until it is killed
	})
	status, err := run(context.Background(), os.Getenv("DATABASE_FILE"), os.Getenv("DATABASE_URL"), day, decide, io.Discard)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	return status
}

// home is where a shop of a test stands.
type home struct{ kind, file, dsn string }

// both runs a test on both kinds of database, each with the demo shop in it.
func both(t *testing.T, test func(t *testing.T, h home)) {
	t.Run("sqlite", func(t *testing.T) {
		test(t, home{"sqlite", filepath.Join(t.TempDir(), "a shop? 100%.sqlite"), ""})
	})
	t.Run("postgres", func(t *testing.T) { test(t, home{"postgres", "", newURL(t)}) })
}

func (h home) open(t testing.TB) *store {
	t.Helper()
	s, err := open(t.Context(), h.file, h.dsn)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.db.Close() })
	return s
}

func (h home) child(t *testing.T, kind string) (*exec.Cmd, io.Writer, *bufio.Reader) {
	t.Helper()
	cmd := exec.CommandContext(t.Context(), os.Args[0])
	cmd.Env = append(os.Environ(), "DATABASE_CHILD="+kind, "DATABASE_FILE="+h.file, "DATABASE_URL="+h.dsn)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, in, bufio.NewReader(out)
}

// revise also says whether a list was written.
func revise(ctx context.Context, s *store, day quoin.Date, decide decider) (pricelist.Answer, bool, error) {
	answer, said, err := s.revise(ctx, day, decide)
	return answer, err == nil && strings.Contains(said, "written to the tables"), err
}

func exec1(t testing.TB, s *store, query string, args ...any) {
	t.Helper()
	if _, err := s.db.ExecContext(t.Context(), query, args...); err != nil {
		t.Fatalf("%s: %v", query, err)
	}
}

// dump is all that the program writes, as one text.
func dump(t testing.TB, s *store) string {
	t.Helper()
	var b strings.Builder
	for _, query := range []string{
		"SELECT product, price, list FROM prices ORDER BY product",
		"SELECT product, side, position, refused, rule, channel, asked, got FROM reasons ORDER BY product, side, position",
		"SELECT id, decided_on, document_hash, standing_hash, document, answer FROM price_history ORDER BY id",
	} {
		rows, err := s.db.QueryContext(t.Context(), query)
		if err != nil {
			t.Fatal(err)
		}
		names, _ := rows.Columns()
		for rows.Next() {
			values, at := make([]any, len(names)), make([]any, len(names))
			for i := range values {
				at[i] = &values[i]
			}
			if err := rows.Scan(at...); err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&b, "%s\n", values)
		}
		if err := errors.Join(rows.Err(), rows.Close()); err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

func count(t testing.TB, s *store, query string) (n int) {
	t.Helper()
	if err := s.db.QueryRowContext(t.Context(), query).Scan(&n); err != nil {
		t.Fatalf("%s: %v", query, err)
	}
	return n
}

// one checks that prices, reasons and history belong to one document, with so many rows of history.
func one(t testing.TB, s *store, lists int) {
	t.Helper()
	if got := count(t, s, "SELECT count(*) FROM price_history"); got != lists {
		t.Errorf("%d rows of history, want %d", got, lists)
	}
	if got := count(t, s, "SELECT count(DISTINCT document_hash) FROM price_history"); got != lists {
		t.Errorf("history is of %d documents, want %d", got, lists)
	}
	if got := count(t, s, "SELECT count(*) FROM prices WHERE list <> (SELECT max(id) FROM price_history) OR list IS NULL"); got != 0 {
		t.Errorf("%d prices are not of the last list", got)
	}
	var document, hash string
	var answer []byte
	if err := s.db.QueryRowContext(t.Context(), "SELECT document, document_hash, answer FROM price_history ORDER BY id DESC LIMIT 1").Scan(&document, &hash, &answer); err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprintf("%x", sha256.Sum256([]byte(document))); got != hash {
		t.Errorf("the document has the hash %s, and %s is stored", got, hash)
	}
	list, err := pricelist.Price([]byte(document))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list.Products {
		var price quoin.Amount
		if err := s.db.QueryRowContext(t.Context(), "SELECT price FROM prices WHERE product = $1", p.ID).Scan(&price); err != nil {
			t.Fatal(err)
		}
		if price.String() != p.Price.String() {
			t.Errorf("%s stands at %s, and its document gives %s", p.ID, price, p.Price)
		}
	}
}

// The demo shop is the first document of the README with today's prices and one more rule: there
// heron-a4 costs 22.00, held by "4.00 stays in shops", and the other may stay at 32.00.
func TestDemo(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		var out bytes.Buffer
		if status, err := run(t.Context(), h.file, h.dsn, day, pricelist.Decide, &out); status != 0 {
			t.Fatal(status, err)
		}
		for _, want := range append(pricelist.Cautions()[1:2], "Heron, A4: 22.00 EUR", "Heron, A3: 32.00 EUR", "written to the tables") {
			if !strings.Contains(out.String(), want) {
				t.Errorf("printed without %q:\n%s", want, &out)
			}
		}
		s := h.open(t)
		one(t, s, 1)
		var rule, refused, date string
		if err := s.db.QueryRowContext(t.Context(), "SELECT rule, refused FROM reasons WHERE product = 'heron-a4' AND side = 'lower'").Scan(&rule, &refused); err != nil {
			t.Fatal(err)
		}
		if rule != "4.00 stays in shops" || refused != "21.50" {
			t.Errorf("%q refuses %s", rule, refused)
		}
		if err := s.db.QueryRowContext(t.Context(), "SELECT decided_on FROM price_history").Scan(&date); err != nil || !strings.HasPrefix(date, "2026-03-01") {
			t.Errorf("dated %s, %v", date, err)
		}
	})
}

// A second run with nothing changed prints the same list and leaves every row as it was; so does
// the third. A price that was set by hand, and one that is dearer now, are noticed.
func TestTwice(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		first, wrote, err := revise(t.Context(), s, day, pricelist.Decide)
		if err != nil || !wrote {
			t.Fatal(wrote, err)
		}
		before := dump(t, s)
		for range 2 {
			again, wrote, err := revise(t.Context(), s, quoin.MustDate("2026-03-02"), pricelist.Decide)
			if err != nil || wrote {
				t.Fatal(wrote, err)
			}
			if a, b := asJSON(t, first), asJSON(t, again); a != b {
				t.Errorf("first %s\nthen %s", a, b)
			}
			if after := dump(t, s); before != after {
				t.Errorf("before:\n%s\nafter:\n%s", before, after)
			}
		}
		exec1(t, s, "UPDATE prices SET price = '24.5' WHERE product = 'heron-a4'")
		answer, wrote, err := revise(t.Context(), s, day, pricelist.Decide)
		if err != nil || !wrote || answer.Products[0].Price.String() != "24.50" {
			t.Errorf("a price by hand: %v, %v, %v", answer.Products[0].Price, wrote, err)
		}
		one(t, s, 2)
		exec1(t, s, "UPDATE supplies SET price = '125.00' WHERE id = 'paper'")
		if _, wrote, err := revise(t.Context(), s, day, pricelist.Decide); err != nil || !wrote {
			t.Error(wrote, err)
		}
		one(t, s, 3)
	})
}

func asJSON(t *testing.T, a pricelist.Answer) string {
	text, err := a.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Digits come back as they were written, from the table, in the document, and in the list.
func TestExact(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		for _, digits := range []string{"123456789012.12345678", "0.10", "0.1", "0", "17.50000000", "999999999999.99999999", "0.00000001"} {
			exec1(t, s, "UPDATE supplies SET price = $1, freight = '0.10' WHERE id = 'paper'", quoin.MustAmount(digits))
			var stored string
			var back quoin.Amount
			if err := s.db.QueryRowContext(t.Context(), "SELECT price, price FROM supplies WHERE id = 'paper'").Scan(&stored, &back); err != nil {
				t.Fatal(err)
			}
			var doc pricelist.Document
			if err := s.within(t.Context(), sql.TxOptions{}, func(w *work) { doc, _ = w.document() }); err != nil {
				t.Fatal(err)
			}
			if stored != digits || back.String() != digits || doc.Supplies[0].Price.String() != digits || doc.Supplies[0].Freight.String() != "0.10" {
				t.Errorf("%s: stored %s, scanned %s, in the document %s and %s", digits, stored, back, doc.Supplies[0].Price, doc.Supplies[0].Freight)
			}
		}
	})
}

// Mistakes are said all at once, by table, row and column, and nothing is written.
func TestMistakes(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		exec1(t, s, "UPDATE shop SET currency = 'EURO'")
		exec1(t, s, "UPDATE supplies SET quantity = '50 sheets of' WHERE id = 'paper'")
		exec1(t, s, "UPDATE bill SET quantity = 'half a sheet' WHERE product = 'heron-a3' AND position = 2")
		exec1(t, s, `UPDATE channels SET tax = '{"rat": "20%"}' WHERE id = 'shops'`)
		exec1(t, s, "UPDATE fees SET rate = '2' WHERE channel = 'web'")
		exec1(t, s, `UPDATE rules SET channels = '["web", "wbe"]' WHERE position = 2`)
		before := dump(t, s)
		status, err := run(t.Context(), h.file, h.dsn, day, pricelist.Decide, io.Discard)
		if status != 2 {
			t.Fatalf("status %d: %v", status, err)
		}
		for _, want := range []string{"shop, currency: ", "supplies paper, quantity: ", "products heron-a3, bill[1].quantity: ", "channels shops, tax.rat: ", "channels web, fees[0].rate: "} {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("found no %q in:\n%v", want, err)
			}
		}
		if after := dump(t, s); before != after {
			t.Errorf("before:\n%s\nafter:\n%s", before, after)
		}
	})
}

func TestConflict(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		exec1(t, s, "INSERT INTO rules (id, position, rule, at_most) VALUES ('cheap', 9, 'price', '5.00')")
		before := dump(t, s)
		var out bytes.Buffer
		status, err := run(t.Context(), h.file, h.dsn, day, pricelist.Decide, &out)
		if status != 1 || !strings.Contains(out.String(), "cheap") {
			t.Errorf("status %d, %v:\n%s", status, err, &out)
		}
		if after := dump(t, s); before != after {
			t.Errorf("before:\n%s\nafter:\n%s", before, after)
		}
	})
}

// A change between reading and writing is noticed: the list is of the shop after it.
func TestChangedInBetween(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s, other := h.open(t), h.open(t)
		decisions := 0
		decide := func(doc pricelist.Document) (pricelist.Answer, error) {
			if decisions++; decisions == 1 {
				exec1(t, other, "UPDATE supplies SET price = '124.00' WHERE id = 'paper'")
			}
			return pricelist.Decide(doc)
		}
		if _, wrote, err := revise(t.Context(), s, day, decide); err != nil || !wrote || decisions != 2 {
			t.Fatalf("%v, %v after %d decisions, want 2", wrote, err, decisions)
		}
		one(t, s, 1)
		if got := count(t, s, "SELECT count(*) FROM price_history WHERE CAST(document AS TEXT) LIKE '%124.00%'"); got != 1 {
			t.Error("the list is of the shop before the change")
		}
		// Where it never rests, the program gives up and writes nothing.
		n := int64(200)
		exec1(t, other, "UPDATE supplies SET price = '199.00' WHERE id = 'paper'")
		status, err := run(t.Context(), h.file, h.dsn, day, func(doc pricelist.Document) (pricelist.Answer, error) {
			n++
			exec1(t, other, "UPDATE supplies SET price = $1 WHERE id = 'paper'", quoin.AmountOf(n, 0))
			return pricelist.Decide(doc)
		}, io.Discard)
		if status != 3 || !errors.Is(err, errChanged) {
			t.Errorf("status %d: %v", status, err)
		}
		if got := count(t, s, "SELECT count(*) FROM price_history"); got != 1 {
			t.Errorf("%d lists, want 1", got)
		}
	})
}

// Many at once have all read the shop before any of them writes; one of them writes.
func TestManyAtOnce(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		h.open(t)
		const many = 8
		var all, done sync.WaitGroup
		all.Add(many)
		wrote := make([]bool, many)
		for i := range many {
			s := h.open(t)
			done.Go(func() {
				var once sync.Once
				var err error
				_, wrote[i], err = revise(t.Context(), s, day, func(doc pricelist.Document) (pricelist.Answer, error) {
					once.Do(func() { all.Done(); all.Wait() })
					return pricelist.Decide(doc)
				})
				if err != nil {
					t.Error(err)
				}
			})
		}
		done.Wait()
		wrotes := 0
		for _, w := range wrote {
			if w {
				wrotes++
			}
		}
		if wrotes != 1 {
			t.Errorf("%d wrote, want 1", wrotes)
		}
		one(t, h.open(t), 1)
	})
}

// Two processes open a new database at the same time, read, and write when both have read.
func TestTwoProcesses(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		a, goA, saysA := h.child(t, "wait")
		b, goB, saysB := h.child(t, "wait")
		for _, says := range []*bufio.Reader{saysA, saysB} {
			if line, err := says.ReadString('\n'); err != nil || line != "waiting\n" {
				t.Fatalf("%q, %v", line, err)
			}
		}
		fmt.Fprintln(goA)
		fmt.Fprintln(goB)
		if err := errors.Join(a.Wait(), b.Wait()); err != nil {
			t.Error(err)
		}
		one(t, h.open(t), 1)
	})
}

// A process that is killed when half of its list is written leaves the old list; so does a
// database server that loses its power then. The next run writes the new one.
func TestKilled(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		if _, _, err := revise(t.Context(), s, day, pricelist.Decide); err != nil {
			t.Fatal(err)
		}
		before := dump(t, s)
		exec1(t, s, "UPDATE supplies SET price = '125.00' WHERE id = 'paper'")
		stopAndKill := h.stopInSQLite
		if h.kind == "postgres" {
			stopAndKill = h.stopInPostgres
		}
		stopAndKill(t, s)
		s = h.open(t)
		if after := dump(t, s); before != after {
			t.Errorf("before:\n%s\nafter:\n%s", before, after)
		}
		exec1(t, s, map[string]string{"sqlite": "DROP TRIGGER stop", "postgres": "DROP TRIGGER stop ON price_history"}[h.kind])
		if _, wrote, err := revise(t.Context(), s, day, pricelist.Decide); err != nil || !wrote {
			t.Fatal(wrote, err)
		}
		one(t, s, 2)
	})
}

func (h home) stopInSQLite(t *testing.T, s *store) {
	sqlite.MustRegisterScalarFunction("stop_here", 0, func(*sqlite.FunctionContext, []driver.Value) (driver.Value, error) {
		return nil, errors.New("only the child stops here")
	})
	s.db.Close()
	s = h.open(t)
	exec1(t, s, "CREATE TRIGGER stop BEFORE INSERT ON price_history BEGIN SELECT stop_here(); END")
	s.db.Close()
	cmd, _, says := h.child(t, "run")
	if line, err := says.ReadString('\n'); err != nil || line != "waiting\n" {
		t.Fatalf("%q, %v", line, err)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	cmd.Wait()
}

// The child waits for a lock that the test holds; the server shows that it does.
func (h home) stopInPostgres(t *testing.T, s *store) {
	exec1(t, s, `CREATE FUNCTION stop() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM pg_advisory_xact_lock(1); RETURN NEW; END $$;
		CREATE TRIGGER stop BEFORE INSERT ON price_history FOR EACH ROW EXECUTE FUNCTION stop()`)
	exec1(t, s, "SELECT pg_advisory_lock(1)")
	cmd, _, _ := h.child(t, "run")
	for count(t, s, "SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND NOT granted") == 0 {
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	cmd.Wait()
	s.db.Close()
	c, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(c.stop("immediate"), c.start()); err != nil {
		t.Fatal(err)
	}
}

func TestHistoryIsAppendOnly(t *testing.T) {
	both(t, func(t *testing.T, h home) {
		s := h.open(t)
		if _, _, err := revise(t.Context(), s, day, pricelist.Decide); err != nil {
			t.Fatal(err)
		}
		before := dump(t, s)
		refused := []string{"UPDATE price_history SET decided_on = '2020-01-01'", "DELETE FROM price_history"}
		if h.kind == "postgres" {
			refused = append(refused, "TRUNCATE price_history CASCADE")
		} else {
			refused = append(refused, "INSERT OR REPLACE INTO price_history SELECT id, '2020-01-01', document_hash, standing_hash, document, answer FROM price_history")
		}
		for _, query := range refused {
			if _, err := s.db.ExecContext(t.Context(), query); err == nil || !strings.Contains(err.Error(), "append only") {
				t.Errorf("%s: %v", query, err)
			}
		}
		if after := dump(t, s); before != after {
			t.Errorf("before:\n%s\nafter:\n%s", before, after)
		}
	})
}

// BenchmarkRun is a whole run that finds a dearer supply: open, read, decide, prove, write.
func BenchmarkRun(b *testing.B) {
	for _, kind := range []string{"sqlite", "postgres"} {
		b.Run(kind, func(b *testing.B) {
			h := home{kind, filepath.Join(b.TempDir(), "shop.sqlite"), ""}
			if kind == "postgres" {
				h = home{kind, "", newURL(b)}
			}
			s := h.open(b)
			for n := 0; b.Loop(); n++ {
				exec1(b, s, "UPDATE supplies SET price = $1 WHERE id = 'paper'", quoin.AmountOf(int64(6000+n%500), 2))
				if _, err := run(b.Context(), h.file, h.dsn, day, pricelist.Decide, io.Discard); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
