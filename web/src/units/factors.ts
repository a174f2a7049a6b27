// SPDX-License-Identifier: Apache-2.0
// Exact factors between SI and the units of the trade, named A-per-B. Only input and output use them.

/** International foot and inch (exact since 1959: 1 yd = 0.9144 m). */
export const mPerFt = 0.3048;
export const mPerIn = 0.0254;
/** One foot-candle is one lumen per square foot. */
export const lxPerFc = 1 / (mPerFt * mPerFt);
/** 0 degrees C are 32 degrees F; the scales are 5 to 9. */
export const celsiusFromFahrenheit = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;
export const fahrenheitFromCelsius = (celsius: number): number => (celsius * 9) / 5 + 32;
