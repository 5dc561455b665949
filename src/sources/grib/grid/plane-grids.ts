// Templates 3.10 (Mercator), 3.20 (polar stereographic) and 3.30 (Lambert conformal).

import type { Section } from '#sources/grib/section.ts';
import type { Earth } from './earth.ts';
import type { LambertGrid, MercatorGrid, PolarGrid } from './grid.ts';
import { gridRelativeAt, latitudeAt, longitudeAt, scanningAt, sizeAt, stepMAt } from './grid-octets.ts';

/** Octets 31 to 47 are alike in all three. */
function head(section: Section, earth: Earth) {
  return {
    ...sizeAt(section, 31),
    earth,
    firstLatDeg: latitudeAt(section, 39),
    firstLonDeg: longitudeAt(section, 43),
    gridRelative: gridRelativeAt(section, 47),
  };
}

export function readMercator(section: Section, earth: Earth): MercatorGrid {
  const trueLatDeg = latitudeAt(section, 48);
  if (Math.abs(trueLatDeg) > 89) throw section.fault('malformed', `Mercator true at ${trueLatDeg}`, 48);
  if (section.u32(61) !== 0) throw section.fault('unsupported', 'a turned Mercator grid is not read', 61);
  const base = head(section, earth);
  if (Math.abs(base.firstLatDeg) > 89) throw section.fault('malformed', 'a Mercator grid at a pole', 39);
  return {
    kind: 'mercator',
    ...base,
    trueLatDeg,
    scanning: scanningAt(section, 60),
    stepXM: stepMAt(section, 65),
    stepYM: stepMAt(section, 69),
  };
}

export function readPolar(section: Section, earth: Earth): PolarGrid {
  const southPole = poleOf(section);
  const trueLatDeg = latitudeAt(section, 48);
  const base = head(section, earth);
  // The other pole lies nowhere on the plane.
  const side = southPole ? -1 : 1;
  if (trueLatDeg * side < 1)
    throw section.fault('malformed', `a plane at the pole true at ${trueLatDeg}`, 48);
  if (base.firstLatDeg * side < -89) throw section.fault('malformed', 'a grid at the other pole', 39);
  return {
    kind: 'polar-stereographic',
    ...base,
    trueLatDeg,
    orientationDeg: longitudeAt(section, 52),
    southPole,
    scanning: scanningAt(section, 65),
    stepXM: stepMAt(section, 56),
    stepYM: stepMAt(section, 60),
  };
}

export function readLambert(section: Section, earth: Earth): LambertGrid {
  // The pole that the flag names is the one to which the cutting latitudes belong.
  const southPole = poleOf(section);
  const cutsDeg = [latitudeAt(section, 66), latitudeAt(section, 70)] as const;
  const side = southPole ? -1 : 1;
  const isCone = cutsDeg.every((deg) => deg * side >= 1 && deg * side <= 89);
  if (!isCone) throw section.fault('malformed', `a cone that cuts at ${cutsDeg.join(' and ')}`, 66);
  const base = head(section, earth);
  if (base.firstLatDeg * side < -89) throw section.fault('malformed', 'a grid at the other pole', 39);
  return {
    kind: 'lambert',
    ...base,
    orientationDeg: longitudeAt(section, 52),
    cutsDeg,
    scanning: scanningAt(section, 65),
    stepXM: stepMAt(section, 56),
    stepYM: stepMAt(section, 60),
  };
}

/** Flag table 3.5: 0x80 the south pole, 0x40 both. */
function poleOf(section: Section): boolean {
  const flags = section.u8(64);
  if ((flags & 0x7f) !== 0) throw section.fault('unsupported', `projection centre ${flags} is not read`, 64);
  return (flags & 0x80) !== 0;
}
