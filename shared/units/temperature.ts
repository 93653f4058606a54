/** Degrees Fahrenheit per degree Celsius, by definition: 212 − 32 over 100. */
const FAHRENHEIT_PER_CELSIUS = (212 - 32) / 100;

/** Freezing point of water in °F. */
const FREEZING_F = 32;

/** A temperature in °C to °F. */
export function celsiusToFahrenheit(celsius: number): number {
  return celsius * FAHRENHEIT_PER_CELSIUS + FREEZING_F;
}

/** A temperature in °F to °C. */
export function fahrenheitToCelsius(fahrenheit: number): number {
  return (fahrenheit - FREEZING_F) / FAHRENHEIT_PER_CELSIUS;
}

/** A difference or a tolerance in °C to °F: no zero point is moved. */
export function celsiusStepToFahrenheit(celsiusStep: number): number {
  return celsiusStep * FAHRENHEIT_PER_CELSIUS;
}

/** A difference or a tolerance in °F to °C: no zero point is moved. */
export function fahrenheitStepToCelsius(fahrenheitStep: number): number {
  return fahrenheitStep / FAHRENHEIT_PER_CELSIUS;
}

const TYPED = /^(?<number>[-+]?\d+(?:[.,]\d+)?)\s*°?\s*(?<unit>[cf])?$/i;

/** A temperature as typed, in °C: `36.9`, `36,9 °C`, `98.4F`, `100 °F`; null when it is none. */
export function parseTemperature(text: string): number | null {
  const groups = TYPED.exec(text.trim().replace('−', '-'))?.groups;
  if (!groups) return null;
  const number = Number((groups['number'] ?? '').replace(',', '.'));
  return groups['unit']?.toLowerCase() === 'f' ? fahrenheitToCelsius(number) : number;
}
