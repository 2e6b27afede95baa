package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// TestReadme: the README shows the document, the program and what it prints, as they are.
func TestReadme(t *testing.T) {
	readme := read(t, "../../README.md")
	printed, err := exec.Command("go", "run", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	for block, want := range map[string]string{"json": read(t, "shop.json"), "go": read(t, "main.go"), "text": string(printed)} {
		if !strings.Contains(readme, "```"+block+"\n"+want+"```\n") {
			t.Errorf("the README shows another %s than\n%s", block, want)
		}
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
