/**
 * Moist air: humidity from dry and wet bulb and back, dew point, pressure at height. Mirrors
 * server/broodline/trade/air.py over tests/vectors/climate.json. ASHRAE Handbook of Fundamentals 2017, chapter 1:
 * saturation over water (0 to 200 °C), equations 33 and 35 for the wet bulb; standard atmosphere for height.
 * Temperatures in °C, pressures in Pa, humidity in percent.
 */

export const STANDARD_PRESSURE_PA = 101_325;
const WATER_TO_AIR = 0.621945;
const HALVINGS = 60;

/** What no air gives, with the words for it. */
export class NoSuchAir extends RangeError {}

/** Saturation vapour pressure over water, Pa, for 0 to 200 °C (ASHRAE 2017, 1.5). Throws NoSuchAir outside. */
export function saturationPressurePa(temperatureC: number): number {
  if (!(temperatureC >= 0 && temperatureC <= 200))
    throw new NoSuchAir(`${temperatureC} °C is outside 0 to 200 °C`);
  const t = temperatureC + 273.15;
  return Math.exp(
    -5.8002206e3 / t +
      1.3914993 -
      4.8640239e-2 * t +
      4.1764768e-5 * t * t -
      1.4452093e-8 * t * t * t +
      6.5459673 * Math.log(t),
  );
}

/** The height to reckon with: as it was written, and the sea's where none was or none can be. */
export const heightM = (written: number | null | undefined): number =>
  written != null && written >= -500 && written <= 11_000 ? written : 0;

/** Air pressure at a height above the sea, Pa, standard atmosphere up to 11,000 m. Throws NoSuchAir above. */
export function pressurePa(altitudeM: number): number {
  if (!(altitudeM >= -500 && altitudeM <= 11_000))
    throw new NoSuchAir(`${altitudeM} m is no height a flock is kept at`);
  return STANDARD_PRESSURE_PA * (1 - 2.25577e-5 * altitudeM) ** 5.2559;
}

/** kg water in a kg of dry air, from both bulbs (equations 33, 35). Throws NoSuchAir for wet above dry. */
export function humidityRatio(dryC: number, wetC: number, pressure = STANDARD_PRESSURE_PA): number {
  if (wetC > dryC)
    throw new NoSuchAir("the wet bulb reads above the dry bulb: are the two mixed up, or is the wick dry?");
  const vapour = saturationPressurePa(wetC);
  const saturated = (WATER_TO_AIR * vapour) / (pressure - vapour);
  return ((2501 - 2.326 * wetC) * saturated - 1.006 * (dryC - wetC)) / (2501 + 1.86 * dryC - 4.186 * wetC);
}

/** Relative humidity from both bulbs, percent, at a height in metres. Throws NoSuchAir where no air can read so. */
export function humidityPct(dryC: number, wetC: number, altitudeM = 0): number {
  const pressure = pressurePa(altitudeM);
  const ratio = humidityRatio(dryC, wetC, pressure);
  if (ratio < 0) throw new NoSuchAir("no air is that dry: look at the wick and the wet bulb");
  return (100 * pressure * ratio) / (WATER_TO_AIR + ratio) / saturationPressurePa(dryC);
}

/** The wet bulb temperature for a relative humidity in percent, by halving. Throws NoSuchAir outside 0 to 100. */
export function wetBulbC(dryC: number, humidity: number, altitudeM = 0): number {
  const pressure = pressurePa(altitudeM);
  const vapour = vapourPa(dryC, humidity);
  const wanted = (WATER_TO_AIR * vapour) / (pressure - vapour);
  return halved(dryC, (middle) => humidityRatio(dryC, middle, pressure) < wanted);
}

/** The temperature at which water of this air begins to settle; 0 where it lies below freezing. Throws NoSuchAir. */
export function dewPointC(dryC: number, humidity: number): number {
  const vapour = vapourPa(dryC, humidity);
  return halved(dryC, (middle) => saturationPressurePa(middle) < vapour);
}

function vapourPa(dryC: number, humidity: number): number {
  if (!(humidity >= 0 && humidity <= 100)) throw new NoSuchAir(`${humidity} % is no humidity`);
  return (humidity / 100) * saturationPressurePa(dryC);
}

/** The temperature between 0 and the highest at which `isBelow` turns false. */
function halved(highest: number, isBelow: (temperatureC: number) => boolean): number {
  let low = 0;
  let high = highest;
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (low + high) / 2;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
  return high;
}
