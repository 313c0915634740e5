/** Invented hourly weather: a cool, wet autumn by a river. Seeded by the site's name, so it never changes. */
import type { Reading } from "../../api/shop.ts";
import { seededRandom } from "../../core/numeric/random.ts";

/** The logger's battery was flat for so many hours from this one on: what nobody knows is part of a season outdoors. */
const silent = { fromHour: 25 * 24 + 7, hours: 53 };

export function demoWeather(site: string, start: string, days: number): Reading[] {
  const random = seededRandom([...site].reduce((sum, letter) => sum * 31 + letter.charCodeAt(0), 7) % 1_000_003);
  const begins = Date.parse(`${start}T00:00:00Z`);
  let front = 0;
  return Array.from({ length: days * 24 }, (_, hour) => {
    // Fronts wander slowly; the day's warmth peaks at three and dries the air.
    front = 0.985 * front + 0.6 * (random.next() - 0.5);
    const sun = Math.cos(((hour % 24) - 15) * (Math.PI / 12));
    const tempC = 9 + 4 * sun + 3 * front + 0.4 * (random.next() - 0.5);
    const rhPercent = Math.min(100, Math.max(35, 82 - 11 * sun - 9 * front + 3 * (random.next() - 0.5)));
    const at = new Date(begins + hour * 3_600_000).toISOString();
    return { site, at, tempC: Math.round(tempC * 10) / 10, rhPercent: Math.round(rhPercent * 10) / 10 };
  }).filter((_, hour) => hour < silent.fromHour || hour >= silent.fromHour + silent.hours);
}
