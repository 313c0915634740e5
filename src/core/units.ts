/** What the user prefers to read and type. Everything inside is SI-derived; only the faces convert. */
export type Preferences = { temp: "°C" | "°F"; length: "mm" | "in"; mass: "g" | "oz" };

export const siPreferences: Preferences = { temp: "°C", length: "mm", mass: "g" };

/** International yard and pound agreement, 1959: both exact. */
const mmPerInch = 25.4;
const gPerOunce = 28.349523125;

export const fahrenheitFromC = (tempC: number) => (tempC * 9) / 5 + 32;
export const cFromFahrenheit = (tempF: number) => ((tempF - 32) * 5) / 9;
export const inchFromMm = (lengthMm: number) => lengthMm / mmPerInch;
export const mmFromInch = (lengthIn: number) => lengthIn * mmPerInch;
export const ounceFromG = (massG: number) => massG / gPerOunce;
export const gFromOunce = (massOz: number) => massOz * gPerOunce;
