// Shape of the earth (section 3, octets 15 to 30; code table 3.2).

import type { Section } from '#sources/grib/section.ts';

/** Half axes; a sphere has two alike. */
export interface Earth {
  readonly majorM: number;
  readonly minorM: number;
}

const sphere = (radiusM: number): Earth => ({ majorM: radiusM, minorM: radiusM });

/** Figures of code table 3.2; shapes 1, 3 and 7 carry their own. */
const SHAPES: Readonly<Record<number, Earth>> = {
  0: sphere(6_367_470),
  2: { majorM: 6_378_160, minorM: 6_356_775 },
  4: { majorM: 6_378_137, minorM: 6_356_752.314 },
  5: { majorM: 6_378_137, minorM: 6_356_752.3142 },
  6: sphere(6_371_229),
  8: sphere(6_371_200),
};

export function readEarth(section: Section): Earth {
  const shape = section.u8(15);
  if (shape === 1) return sphere(axis(section, 16, 1));
  if (shape === 3) return oblate(section, 1000);
  if (shape === 7) return oblate(section, 1);
  const known = SHAPES[shape];
  if (!known) throw section.fault('unsupported', `shape of the earth ${shape} is not read`, 15);
  return known;
}

function oblate(section: Section, unitM: number): Earth {
  const earth = { majorM: axis(section, 21, unitM), minorM: axis(section, 26, unitM) };
  if (earth.minorM > earth.majorM) throw section.fault('malformed', 'an earth higher than wide', 21);
  return earth;
}

/** Scale factor in one octet, scaled value in four; refused where that is no earth. */
function axis(section: Section, octet: number, unitM: number): number {
  const factor = section.s8(octet);
  const axisM = (section.u32(octet + 1) * unitM) / 10 ** factor;
  if (!(axisM > 6.3e6 && axisM < 6.5e6)) throw section.fault('malformed', `an earth of ${axisM} m`, octet);
  return axisM;
}
