package main

import (
	"context"
	"database/sql"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"strconv"
	"sync"
	"syscall"
	"testing"
)

// cluster is a PostgreSQL of the tests' own, in a temporary folder, on the loopback.
type cluster struct {
	bin, folder string
	port        int
	as          *syscall.SysProcAttr
}

var shared = sync.OnceValues(startCluster)

func startCluster() (*cluster, error) {
	initdb, err := exec.LookPath("initdb")
	if err != nil {
		found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb")
		if len(found) == 0 {
			return nil, fmt.Errorf("found no initdb in PATH or /usr/lib/postgresql/*/bin: install PostgreSQL (Debian: apt-get install postgresql)")
		}
		initdb = found[len(found)-1]
	}
	c := &cluster{bin: filepath.Dir(initdb), as: &syscall.SysProcAttr{}}
	if c.folder, err = os.MkdirTemp("", "cluster"); err != nil {
		return nil, err
	}
	if os.Geteuid() == 0 { // which PostgreSQL refuses to run as
		who, err := user.Lookup("postgres")
		if err != nil {
			return nil, fmt.Errorf("as root, PostgreSQL needs a user postgres: %w", err)
		}
		uid, _ := strconv.Atoi(who.Uid)
		gid, _ := strconv.Atoi(who.Gid)
		c.as.Credential = &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}
		if err := os.Chown(c.folder, uid, gid); err != nil {
			return nil, err
		}
	}
	if err := c.run("initdb", "-D", c.data(), "-U", "shop", "-A", "trust", "-E", "UTF8", "--locale=C"); err != nil {
		return nil, err
	}
	for range 5 { // another program may take the port in between
		free, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			return nil, err
		}
		c.port = free.Addr().(*net.TCPAddr).Port
		free.Close()
		if err = c.start(); err == nil {
			return c, nil
		}
	}
	return nil, c.start()
}

func (c *cluster) data() string { return filepath.Join(c.folder, "data") }

func (c *cluster) start() error {
	options := fmt.Sprintf("-p %d -h 127.0.0.1 -c unix_socket_directories=''", c.port)
	return c.run("pg_ctl", "-D", c.data(), "-w", "-t", "60", "-l", filepath.Join(c.folder, "log"), "-o", options, "start")
}

func (c *cluster) stop(mode string) error {
	return c.run("pg_ctl", "-D", c.data(), "-w", "-t", "60", "-m", mode, "stop")
}

func (c *cluster) run(program string, args ...string) error {
	cmd := exec.Command(filepath.Join(c.bin, program), args...)
	cmd.SysProcAttr, cmd.Dir = c.as, c.folder
	log, err := os.Create(filepath.Join(os.TempDir(), filepath.Base(c.folder)+"."+program))
	if err != nil {
		return err
	}
	defer os.Remove(log.Name())
	defer log.Close()
	cmd.Stdout, cmd.Stderr = log, log // no pipe: the server would keep it open
	if err := cmd.Run(); err != nil {
		said, _ := os.ReadFile(log.Name())
		server, _ := os.ReadFile(filepath.Join(c.folder, "log"))
		return fmt.Errorf("%s: %w\n%s%s", program, err, said, server)
	}
	return nil
}

func (c *cluster) url(database string) string {
	return fmt.Sprintf("postgres://shop@127.0.0.1:%d/%s?sslmode=disable", c.port, database)
}

var databases = 0

// newURL makes an empty database.
func newURL(t testing.TB) string {
	t.Helper()
	c, err := shared()
	if err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("pgx", c.url("postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	databases++
	name := fmt.Sprintf("shop%d", databases)
	if _, err := db.ExecContext(context.Background(), "CREATE DATABASE "+name); err != nil {
		t.Fatal(err)
	}
	return c.url(name)
}
