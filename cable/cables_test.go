package cable_test

import (
	"strconv"
	"strings"
	"testing"

	"example.com/lockrail/cable"
)

// Diameters of the trade (common practice): the high end of each published range.
func TestCablesAgainstTradeRanges(t *testing.T) {
	ids := map[string]string{
		"cat 6 U/UTP": "cat6", "22 AWG 2-conductor stranded, unshielded": "22/2", "22 AWG 4-conductor": "22/4",
		"22 AWG 6-conductor shielded": "22/6", "18 AWG 2-conductor": "18/2", "18 AWG 4-conductor": "18/4",
		"access-control composite bundle (22/6 + 18/4 + 22/4 + 22/2)": "composite",
	}
	found := 0
	for _, r := range published(t, "outside_diameters.csv") {
		id, ok := ids[r["item"]]
		if !ok {
			continue
		}
		found++
		_, high, _ := strings.Cut(r["value"], " to ")
		want, err := strconv.ParseFloat(high, 64)
		if err != nil {
			t.Fatal(err)
		}
		c, ok := cable.FindCable(id)
		if !ok || float64(c.Outside) != want || string(c.Source.Status) != r["status"] {
			t.Errorf("%s: got %v (%s), trade %v (%s)", id, c.Outside, c.Source.Status, want, r["status"])
		}
	}
	if found != len(ids) {
		t.Errorf("%d of %d ranges found", found, len(ids))
	}
	seen := map[string]bool{}
	for _, c := range cable.Cables() {
		if seen[c.ID] || c.Source.Status == "" || c.Cores == 0 {
			t.Errorf("%+v", c)
		}
		seen[c.ID] = true
		if _, err := c.Item(); err != nil {
			t.Error(err)
		}
		if c.Conductor.Size.Given() {
			if _, err := c.Conductor.Resistance(40); err != nil {
				t.Errorf("%s: %v", c.ID, err)
			}
		}
	}
}

func TestLinkLimits(t *testing.T) {
	links := map[string]cable.Link{
		"RS-485 maximum cable length": cable.RS485, "OSDP (IEC 60839-11-5) over RS-485": cable.OSDP, "Wiegand data lines": cable.Wiegand,
		"Ethernet channel": cable.EthernetChannel, "supervised contact input": cable.Supervised,
	}
	found := 0
	for _, r := range published(t, "limits.csv") {
		link, ok := links[r["item"]]
		if !ok {
			continue
		}
		found++
		limit, ok := link.Limit()
		if !ok || float64(limit.Longest) != r.number(t, "value") || string(limit.Source.Status) != r["status"] {
			t.Errorf("%s: %+v", link, limit)
		}
	}
	if found != len(cable.LinkLimits()) {
		t.Errorf("%d of %d limits found", found, len(cable.LinkLimits()))
	}
	if _, ok := cable.Link("telegraph").Limit(); ok {
		t.Error("a link nobody knows has a limit")
	}
}
