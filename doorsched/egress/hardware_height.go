package egress

import "example.com/lockrail/doorsched"

var (
	heightUS = Fault{
		Item: "height", Of: doorsched.HardwareHeight.ID(), Refs: []string{"egress-hw-height"},
		Limit:    doorsched.TextOf("34 to 48 in (863.6 to 1219.2 mm)"),
		Remedies: []Remedy{{"Set the operating part at 40 in (1016 mm)", []Change{set(doorsched.HardwareHeight, 40*doorsched.Inch)}}},
	}
	heightUSLine = doorsched.SiteLine{What: "Height of levers, bars and locks above the finished floor", Limit: "34 to 48 in (864 to 1219 mm)", Field: doorsched.HardwareHeight.ID()}

	exitDeviceHeight = Fault{
		Item: "exit device height", Severity: doorsched.Caution, Of: doorsched.HardwareHeight.ID(), Refs: []string{"uk-exit-height"},
		Cite:  doorsched.Citation{Document: "BS EN 1125", Clause: "installation annex (1997 edition seen)", Status: doorsched.Verified},
		Limit: doorsched.TextOf("900 to 1100 mm"),
		Remedies: []Remedy{
			{"Set the operating part 900 to 1000 mm above the floor", []Change{set(doorsched.HardwareHeight, 950*doorsched.Millimetre)}},
		},
	}
	exitDeviceHeightLine = doorsched.SiteLine{
		What: "Height of the panic or emergency device above the finished floor", Limit: "900 to 1100 mm; lower where children dominate",
		Field: doorsched.HardwareHeight.ID(), Citation: exitDeviceHeight.Cite,
	}
	leverHeight = Fault{
		Item: "lever height", Severity: doorsched.Caution, Of: doorsched.HardwareHeight.ID(), Refs: []string{"uk-8300-lever"},
		Cite:     doorsched.Citation{Document: "BS 8300-2", Edition: "2018", Status: doorsched.Verified},
		Limit:    doorsched.TextOf("800 to 1050 mm"),
		Remedies: []Remedy{{"Set the lever 900 mm above the floor", []Change{set(doorsched.HardwareHeight, 900*doorsched.Millimetre)}}},
	}
	leverHeightLine = doorsched.SiteLine{
		What: "Height of the lever above the finished floor", Limit: "800 to 1050 mm, 900 mm preferred",
		Field: doorsched.HardwareHeight.ID(), Citation: leverHeight.Cite,
	}
)

var hardwareHeight = &Rule{
	Slug:     "hardware-height",
	Title:    "Hardware within reach",
	Protects: "People seated, small or in smoke cannot reach hardware that is too high or too low.",
	Stage:    doorsched.StageSurvey, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.HardwareHeight, doorsched.Phase),
	Refs:   []string{"egress-hw-height", "uk-exit-height", "uk-8300-lever"},
	Cite: both(ibc("1010.2.3", doorsched.Verified),
		doorsched.Citation{Document: "BS EN 1125 and BS 8300-2", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		// Hardware that hangs already can be measured now; what is still to be
		// fitted is a line for the installer.
		line := func(l *doorsched.SiteLine) *doorsched.SiteLine {
			if p, ok := doorsched.Phase.In(c.View).Get(); ok && p == "existing" && doorsched.EgressHardware.In(c.View).IsKnown() {
				return nil
			}
			return l
		}
		if c.UK() {
			device, lever := c.OneOf(doorsched.EgressHardware, "panic", "emergency_device"), c.OneOf(doorsched.EgressHardware, "lever")
			within := func(low, high doorsched.Length) Cond {
				return Between(c, doorsched.HardwareHeight, low*doorsched.Millimetre, high*doorsched.Millimetre)
			}
			return require(c, All(c.egress(), Any(device, lever)),
				check{Implies(device, within(900, 1100)), &exitDeviceHeight, line(&exitDeviceHeightLine)},
				check{Implies(lever, within(800, 1050)), &leverHeight, line(&leverHeightLine)})
		}
		return require(c, c.egress(), check{Between(c, doorsched.HardwareHeight, 34*doorsched.Inch, 48*doorsched.Inch), &heightUS, line(&heightUSLine)})
	},
	Say: func(c Case, f Fault) string {
		if c.UK() {
			return "The hardware is " + f.Value.String() + " above the floor, outside " + f.Limit.String() + ". Some people will not reach it or will not find it in smoke."
		}
		return "The hardware is " + c.show(f.Value) + " above the floor, outside 34 to 48 in. Some people will not reach it or will not find it in smoke."
	},
}
