package main

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// repack copies a workbook, changing the content of one entry.
func repack(t *testing.T, book []byte, entry string, change func(string) string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	changed := false
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if f.Name == entry {
			data, changed = []byte(change(string(data))), true
		}
		e, err := w.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := e.Write(data); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if !changed {
		t.Fatalf("the workbook has no entry %s", entry)
	}
	return out.Bytes()
}

const sheet1 = "xl/worksheets/sheet1.xml"

// What cannot be read truly is refused with the file's name and the reason, the
// target stays as it was, and the exit status is 3.
func TestHostileWorkbooks(t *testing.T) {
	demo, err := os.ReadFile(demoUS)
	if err != nil {
		t.Fatal(err)
	}
	ole := append([]byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"), make([]byte, 4096)...)
	for i, r := range "EncryptedPackage" {
		ole[1024+2*i] = byte(r)
	}
	for _, tt := range []struct {
		name string
		data []byte
		says string
	}{
		{"empty.xlsx", nil, "empty"},
		{"text.xlsx", []byte("Mark,Width\n101,3-0\n"), ""},
		{"protected.xlsx", ole, "password"},
		{"cut.xlsx", demo[:len(demo)/2], "damaged"},
		{"sheet-cut.xlsx", repack(t, demo, sheet1, func(s string) string { return s[:len(s)*2/3] }), sheet1},
		{"sheet-bad.xlsx", repack(t, demo, sheet1, func(s string) string { return strings.Replace(s, "</row>", "</raw>", 1) }), sheet1},
		{"entity.xlsx", repack(t, demo, sheet1, func(s string) string {
			return strings.Replace(s, "<worksheet", `<!DOCTYPE x [<!ENTITY a "b">]><worksheet`, 1)
		}), sheet1},
		{"no-book.xlsx", repack(t, demo, "xl/workbook.xml", func(string) string { return "<workbook/>" }), "no-book.xlsx"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			in, out := filepath.Join(dir, tt.name), filepath.Join(dir, "out.xlsx")
			for name, data := range map[string][]byte{in: tt.data, out: []byte("mine")} {
				if err := os.WriteFile(name, data, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			status, stdout, stderr := lockrail(t, "", "annotate", "--edition", "ibc-2021", in, "-o", out)
			if tt.name == "text.xlsx" {
				// A renamed CSV file is told apart by its content and read as such.
				if status != exitDone && status != exitFailed {
					t.Errorf("exit %d: %s", status, stderr)
				}
				return
			}
			if status != exitFailed || stdout != "" || !strings.Contains(stderr, tt.name) || !strings.Contains(stderr, tt.says) {
				t.Errorf("exit %d, stdout %q, stderr (want %q):\n%s", status, stdout, tt.says, stderr)
			}
			if got, _ := os.ReadFile(out); string(got) != "mine" {
				t.Error("the target changed")
			}
			if left, _ := os.ReadDir(dir); len(left) != 2 {
				t.Errorf("scraps were left: %v", left)
			}
		})
	}
}
