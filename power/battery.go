package power

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.com/lockrail/cable"
)

// AmpHours is a charge.
type AmpHours float64

// Phase is a constant current for a time: standby, then alarm.
type Phase struct {
	Amps cable.Amps
	For  time.Duration
}

func (p Phase) charge() AmpHours { return AmpHours(float64(p.Amps) * p.For.Hours()) }

// Battery is what a standby battery must give.
type Battery struct {
	Phases []Phase
	// Margin is for growth and uncertainty, at least 1; zero is not given: 1.25 is
	// taken, returned as an assumption.
	Margin float64
	// Ageing is at least 1; zero is not given: none is added, and the assumption
	// says so.
	Ageing float64
	// Temperature at the battery; not given: 25 °C, at which capacities are rated.
	Temperature cable.Temperature
	// Recharge is the time to recharge in; zero: 48 hours.
	Recharge time.Duration
}

// BatteryResult is the battery to fit.
type BatteryResult struct {
	Drawn             AmpHours     `json:"drawn_amp_hours"` // by the phases alone
	Needed            AmpHours     `json:"amp_hours"`       // with margin, ageing and temperature
	TemperatureFactor float64      `json:"temperature_factor"`
	TemperatureSource cable.Source `json:"temperature_source"`
	// Block is the next common 12 V block; two in series make 24 V of the same
	// ampere-hours. Zero when none is large enough: blocks in parallel are then to
	// be designed, not calculated here.
	Block AmpHours `json:"block_amp_hours,omitempty"`
	// RechargeAmps puts the block's whole capacity, or Needed without a block, back
	// in the recharge time.
	RechargeAmps cable.Amps         `json:"recharge_amps"`
	Assumptions  []cable.Assumption `json:"assumptions,omitempty"`
}

const defaultMargin = 1.25

const (
	longestPhase    = 10_000 * time.Hour
	defaultRecharge = 48 * time.Hour
)

// Solve is the capacity needed: the sum of current and time, times the factors.
// The rate of discharge is not corrected for: a phase of minutes at many times the
// 20-hour current needs the maker's discharge table.
func (b Battery) Solve() (BatteryResult, error) {
	if len(b.Phases) == 0 {
		return BatteryResult{}, &cable.InputError{Field: "phases", Why: "none given"}
	}
	var r BatteryResult
	for _, p := range b.Phases {
		if err := cable.CheckNotNegative("current of the phase", float64(p.Amps)); err != nil {
			return BatteryResult{}, err
		}
		if p.For < 0 || p.For > longestPhase {
			return BatteryResult{}, &cable.InputError{Field: "duration of the phase", Value: p.For.String(), Why: "must be from 0 to 10000 hours"}
		}
		r.Drawn += p.charge()
	}
	margin, err := b.factor(&r, "margin", b.Margin, defaultMargin, "not given", cable.Source{Text: "NFPA 72-2022 10.6.10.1; 1.2 to 2019", Status: cable.Verified})
	if err != nil {
		return BatteryResult{}, err
	}
	ageing, err := b.factor(&r, "ageing", b.Ageing, 1, "not given, so none is added; 1.25 replaces a battery at 80 % of capacity", cable.Source{Text: "IEEE 485", Status: cable.Memory})
	if err != nil {
		return BatteryResult{}, err
	}
	if err := b.temperature(&r); err != nil {
		return BatteryResult{}, err
	}
	r.Needed = AmpHours(float64(r.Drawn) * margin * ageing * r.TemperatureFactor)
	if err := cable.CheckNotNegative("capacity needed", float64(r.Needed)); err != nil {
		return BatteryResult{}, err
	}
	r.Block = nextBlock(r.Needed)
	return r, b.recharge(&r)
}

func (b Battery) factor(r *BatteryResult, what string, given, usual float64, why string, source cable.Source) (float64, error) {
	if given == 0 {
		r.Assumptions = append(r.Assumptions, cable.Assumption{What: what, Value: strconv.FormatFloat(usual, 'f', -1, 64), Why: why, Source: source})
		return usual, nil
	}
	if err := cable.CheckPositive(what, given); err != nil {
		return 0, err
	}
	if given < 1 || given > 10 {
		return 0, &cable.InputError{Field: what, Value: fmt.Sprint(given), Why: "is a factor from 1 to 10, such as 1.25 for 25 %"}
	}
	return given, nil
}

func (b Battery) temperature(r *BatteryResult) error {
	t, given := b.Temperature.Given()
	if !given {
		r.TemperatureFactor = 1
		r.TemperatureSource = cable.Source{Text: temperatureSource, Status: cable.Verified}
		r.Assumptions = append(r.Assumptions, cable.Assumption{
			What: "battery temperature", Value: "25 °C", Why: "not given; capacities are rated at it", Source: r.TemperatureSource,
		})
		return nil
	}
	factor, source, err := TemperatureFactor(t)
	r.TemperatureFactor, r.TemperatureSource = factor, source
	return err
}

// TemperatureFactor multiplies the capacity of a lead-acid battery rated at 25 °C,
// between the rows of its table by straight lines; below and above the table, -3.9
// to 51.7 °C, it is an error.
func TemperatureFactor(t cable.Celsius) (float64, cable.Source, error) {
	const slack = 0.1 // °F: the ends of the table are printed as -3.9 and 51.7 °C
	first, last := temperatureFactors[0].fahrenheit, temperatureFactors[len(temperatureFactors)-1].fahrenheit
	f := float64(float64(t)*1.8) + 32
	if !(f >= first-slack && f <= last+slack) {
		return 0, cable.Source{}, &cable.InputError{Field: "battery temperature", Value: fmt.Sprint(float64(t)), Why: "the table of factors runs from -3.9 to 51.7 °C"}
	}
	f = min(max(f, first), last)
	i := 1
	for f > temperatureFactors[i].fahrenheit {
		i++
	}
	low, high := temperatureFactors[i-1], temperatureFactors[i]
	part := (f - low.fahrenheit) / (high.fahrenheit - low.fahrenheit)
	source := cable.Source{Text: temperatureSource, Status: cable.Verified}
	if low.status == cable.Memory && part < 1 || high.status == cable.Memory && part > 0 {
		source.Status = cable.Memory
	}
	return low.factor + float64(part*(high.factor-low.factor)), source, nil
}

func nextBlock(needed AmpHours) AmpHours {
	for _, block := range blockSizes {
		if float64(block)*(1+1e-9) >= float64(needed) {
			return block
		}
	}
	return 0
}

func (b Battery) recharge(r *BatteryResult) error {
	hours := b.Recharge
	if hours == 0 {
		hours = defaultRecharge
		r.Assumptions = append(r.Assumptions, cable.Assumption{
			What: "recharge time", Value: "48 h", Why: "not given", Source: cable.Source{Text: "NFPA 731, 2008 edition", Status: cable.Verified},
		})
	}
	if hours < 0 {
		return &cable.InputError{Field: "recharge time", Value: hours.String(), Why: "must be above zero"}
	}
	put := r.Block
	if put == 0 {
		put = r.Needed
	}
	r.RechargeAmps = cable.Amps(float64(put) / hours.Hours())
	return nil
}

var timeUnits = map[string]float64{
	"h": 3600, "hr": 3600, "hour": 3600, "hours": 3600,
	"min": 60, "minute": 60, "minutes": 60,
	"s": 1, "sec": 1, "second": 1, "seconds": 1,
}

// ParsePhase reads "0.42Ax24h", "3.8 A x 5 min", "420mA×30s".
func ParsePhase(s string) (Phase, error) {
	amps, duration, ok := strings.Cut(strings.ReplaceAll(s, "×", "x"), "x")
	if !ok {
		return Phase{}, &cable.InputError{Field: "phase", Value: s, Why: "must be a current, x, and a time, such as 0.42Ax24h"}
	}
	a, err := cable.ParseCurrent(amps)
	if err != nil {
		return Phase{}, err
	}
	seconds, err := cable.ParseQuantity("time", duration, timeUnits, "24h or 5min")
	if err != nil {
		return Phase{}, err
	}
	if seconds > longestPhase.Seconds() {
		return Phase{}, &cable.InputError{Field: "time", Value: duration, Why: "must be at most 10000 hours"}
	}
	return Phase{a, time.Duration(seconds * float64(time.Second))}, nil
}
