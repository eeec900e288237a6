package power

import "example.com/lockrail/cable"

// temperatureFactor is a row of the capacity correction of lead-acid batteries
// rated at 25 °C; the table steps in degrees Fahrenheit.
type temperatureFactor struct {
	fahrenheit float64
	factor     float64
	status     cable.Status
}

const temperatureSource = "IEEE 485 Table 1, lead-acid, rated at 25 °C"

var temperatureFactors = [...]temperatureFactor{
	{25, 1.52, cable.Memory},
	{30, 1.43, cable.Memory},
	{35, 1.35, cable.Memory},
	{40, 1.3, cable.Verified},
	{45, 1.25, cable.Verified},
	{50, 1.19, cable.Verified},
	{55, 1.15, cable.Verified},
	{60, 1.11, cable.Verified},
	{65, 1.08, cable.Verified},
	{66, 1.072, cable.Verified},
	{67, 1.064, cable.Verified},
	{68, 1.056, cable.Verified},
	{69, 1.048, cable.Verified},
	{70, 1.04, cable.Verified},
	{71, 1.034, cable.Verified},
	{72, 1.029, cable.Verified},
	{73, 1.023, cable.Verified},
	{74, 1.017, cable.Verified},
	{75, 1.011, cable.Verified},
	{76, 1.006, cable.Verified},
	{77, 1.0, cable.Verified},
	{78, 0.994, cable.Verified},
	{79, 0.987, cable.Verified},
	{80, 0.98, cable.Verified},
	{81, 0.976, cable.Verified},
	{82, 0.972, cable.Verified},
	{83, 0.968, cable.Verified},
	{84, 0.964, cable.Verified},
	{85, 0.96, cable.Verified},
	{86, 0.956, cable.Verified},
	{87, 0.952, cable.Verified},
	{88, 0.948, cable.Verified},
	{89, 0.944, cable.Verified},
	{90, 0.94, cable.Verified},
	{95, 0.93, cable.Verified},
	{100, 0.91, cable.Verified},
	{105, 0.89, cable.Verified},
	{110, 0.88, cable.Verified},
	{115, 0.87, cable.Verified},
	{120, 0.86, cable.Verified},
	{125, 0.85, cable.Memory},
}

// blockSizes are common capacities of 12 V blocks, 20-hour rate.
var blockSizes = [...]AmpHours{1.2, 2.1, 3.2, 4, 4.5, 5, 7, 7.2, 8, 9, 12, 17, 18, 24, 26, 33, 38, 40, 55, 65, 75, 100}
