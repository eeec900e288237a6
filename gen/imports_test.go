package gen_test

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const module = "example.com/lockrail/"

// allowed lists, for each package, the packages of ours it may reach, directly
// or not. Imports go one way only.
var allowed = func() map[string][]string {
	cable := []string{"cable"}
	power := append(cable, "power")
	doorsched := []string{"doorsched"}
	egress := append(doorsched, "doorsched/egress")
	hardware := append(egress, "doorsched/hardware")
	wiring := append(append(slices.Clone(hardware), power...), "doorsched/wiring")
	result := append(slices.Clone(wiring), "gen/result")
	read := []string{"doorsched", "gen/ooxml", "gen/read"}
	readback := append(append(slices.Clone(result), read...), "gen/layout", "gen/readback")
	pipeline := append(slices.Clone(readback), "gen")
	report := append(slices.Clone(result), "gen/report")
	annotate := append(append(slices.Clone(readback), "gen/report"), "gen/annotate")
	return map[string][]string{
		"cable": cable, "power": power,
		"doorsched": doorsched, "doorsched/egress": egress, "doorsched/hardware": hardware, "doorsched/wiring": wiring,
		"gen/ooxml": {"gen/ooxml"}, "gen/layout": {"gen/layout"},
		"gen/read": read, "gen/readback": readback, "gen/result": result, "gen": pipeline,
		"gen/report": report, "gen/annotate": annotate,
		"gen/demo": {"doorsched", "gen/demo"},
	}
}()

// excelize may be reached from these only.
var mayUseExcelize = []string{"gen/annotate", "gen/demo", "cmd/lockrail"}

func TestImportOrder(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}:{{join .Deps \" \"}}", module+"...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(strings.TrimSpace(string(out))) {
		path, deps, _ := strings.Cut(strings.TrimSpace(line), ":")
		name := strings.TrimPrefix(path, module)
		may, listed := allowed[name]
		if !listed && name != "cmd/lockrail" {
			t.Errorf("%s has no place in the order of imports", name)
			continue
		}
		for _, dep := range strings.Fields(deps) {
			if ours, ok := strings.CutPrefix(dep, module); ok && listed && !slices.Contains(may, ours) {
				t.Errorf("%s reaches %s", name, ours)
			}
			if strings.Contains(dep, "xuri/excelize") && !slices.Contains(mayUseExcelize, name) {
				t.Errorf("%s reaches excelize", name)
			}
			if dep == "log" && strings.HasPrefix(name, "doorsched") {
				t.Errorf("%s logs", name)
			}
		}
	}
}
