package main

import (
	"cmp"
	"context"
	"database/sql"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/url"
	"strings"

	_ "github.com/jackc/pgx/v5/stdlib"
	_ "modernc.org/sqlite"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

//go:embed migrations seed.sql
var files embed.FS

// store is a database, with what differs between the two kinds.
type store struct {
	db      *sql.DB
	other   string            // the kind that it is not
	dialect *strings.Replacer // puts the words of PostgreSQL into its own
	lock    string            // what one program at a time gets past; SQLite has it with every transaction that may write
}

func open(ctx context.Context, file, dsn string) (s *store, err error) {
	driver, s := "pgx", &store{other: ".sqlite.", dialect: strings.NewReplacer(), lock: "SELECT pg_advisory_xact_lock(7091981);"}
	if dsn == "" {
		driver, s = "sqlite", &store{other: ".postgres.", dialect: strings.NewReplacer("NUMERIC", "TEXT",
			"json_build_object", "json_object", "json_agg", "json_group_array", "json_strip_nulls(", "json_patch('{}', ")}
		dsn = "file:" + url.PathEscape(cmp.Or(file, ":memory:")) + "?_txlock=immediate&_pragma=busy_timeout(10000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)"
	}
	if s.db, err = sql.Open(driver, dsn); err != nil {
		return nil, err
	}
	s.db.SetMaxOpenConns(1) // a database in memory is gone with its connection
	return s, s.within(ctx, sql.TxOptions{}, s.migrate)
}

// migrate runs the scripts that the database has not had, by their numbers, and then the demo shop.
func (s *store) migrate(w *work) {
	w.exec(s.lock + "CREATE TABLE IF NOT EXISTS migrations (name TEXT PRIMARY KEY)")
	scripts, _ := fs.Glob(files, "migrations/*")
	for _, name := range append(scripts, "seed.sql") {
		had := 0
		w.get(&had, "SELECT count(*) FROM migrations WHERE name = $1", name)
		if had > 0 || strings.Contains(name, s.other) {
			continue
		}
		text, _ := files.ReadFile(name)
		w.exec("-- " + name + "\n" + s.dialect.Replace(string(text)))
		w.exec("INSERT INTO migrations (name) VALUES ($1)", name)
	}
}

// work is what is done in one transaction. After its first error it does no more.
type work struct {
	ctx context.Context
	tx  *sql.Tx
	err error
}

// within does all of some work or nothing.
func (s *store) within(ctx context.Context, how sql.TxOptions, do func(*work)) error {
	tx, err := s.db.BeginTx(ctx, &how)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	w := &work{ctx, tx, nil}
	if do(w); w.err != nil {
		return w.err
	}
	return tx.Commit()
}

func (w *work) exec(query string, args ...any) {
	if w.err == nil {
		if _, err := w.tx.ExecContext(w.ctx, query, args...); err != nil {
			w.err = fmt.Errorf("%.50s: %w", query, err)
		}
	}
}

func (w *work) get(to any, query string, args ...any) {
	if w.err == nil {
		w.err = w.tx.QueryRowContext(w.ctx, query, args...).Scan(to)
	}
}

// document returns the shop, also as JSON. The library reads every value, so all mistakes are found
// at once: as quoin.Problems, said by table and row.
func (w *work) document() (doc pricelist.Document, text []byte) {
	if w.get(&text, "SELECT text FROM document"); w.err != nil {
		return doc, nil
	}
	doc, err := pricelist.Decode(text)
	if mistakes, ok := err.(quoin.Problems); ok {
		for i, p := range mistakes {
			mistakes[i].Path, mistakes[i].Line, mistakes[i].Column = w.place(p.Path), 0, 0
		}
		w.err = mistakes
		return doc, nil
	}
	text, w.err = json.Marshal(doc)
	return doc, text
}

// place says products[0].bill[1].quantity by its row: products heron-a4, bill[1].quantity.
func (w *work) place(path string) string {
	list, rest, inList := strings.Cut(path, "[")
	if !inList {
		return "shop, " + path
	}
	i, rest, _ := strings.Cut(rest, "]")
	id := ""
	w.get(&id, "SELECT id FROM "+list+" ORDER BY position LIMIT 1 OFFSET "+i)
	return strings.TrimSuffix(list+" "+id+", "+strings.TrimPrefix(rest, "."), ", ")
}
