package demo_test

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"example.com/lockrail/gen/demo"
)

var update = flag.Bool("update", false, "rewrite testdata/demo")

const dir = "../../testdata/demo"

func files(t *testing.T) map[string][]byte {
	t.Helper()
	out, err := demo.Files()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestFilesOnDiskAreTheseOnes(t *testing.T) {
	for name, data := range files(t) {
		path := filepath.Join(dir, name)
		if *update {
			if err := os.WriteFile(path, data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		have, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(have, data) {
			t.Errorf("%s differs from what the table gives; run go test ./gen/demo -update", path)
		}
	}
}

func TestFilesAreTheSameEachTime(t *testing.T) {
	seen := map[string][32]byte{}
	for range 5 {
		for name, data := range files(t) {
			sum := sha256.Sum256(data)
			if had, ok := seen[name]; ok && had != sum {
				t.Errorf("%s: two builds differ", name)
			}
			seen[name] = sum
		}
	}
}
