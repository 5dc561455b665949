// Section 3: which points a field has. Templates 3.0, 3.10, 3.20 and 3.30; others are refused.

import type { Section } from '#sources/grib/section.ts';
import { readEarth } from './earth.ts';
import type { Grid } from './grid.ts';
import { readLatLon } from './lat-lon-grid.ts';
import { readLambert, readMercator, readPolar } from './plane-grids.ts';

/** How many points section 3 says there are, whatever its template. */
export const pointsOf = (section: Section): number => section.u32(7);

/** Throws GribFault. */
export function readGrid(section: Section): Grid {
  const definition = section.u8(6);
  if (definition !== 0)
    throw section.fault('unsupported', `source of grid definition ${definition} is not read`, 6);
  if (section.u8(11) !== 0) throw section.fault('unsupported', 'rows of different lengths are not read', 11);
  const grid = readTemplate(section);
  const points = pointsOf(section);
  if (grid.ni * grid.nj !== points) {
    throw section.fault('malformed', `${grid.ni} × ${grid.nj} points, ${points} claimed`, 7);
  }
  return grid;
}

function readTemplate(section: Section): Grid {
  const template = section.u16(13);
  if (template === 0) return readLatLon(section, readEarth(section));
  if (template === 10) return readMercator(section, readEarth(section));
  if (template === 20) return readPolar(section, readEarth(section));
  if (template === 30) return readLambert(section, readEarth(section));
  const name = OTHER_TEMPLATES[template];
  throw section.fault(
    'unsupported',
    `grid template 3.${template}${name ? ` (${name})` : ''} is not read`,
    13,
  );
}

/** Code table 3.1, and the local ones that were met. */
const OTHER_TEMPLATES: Readonly<Record<number, string>> = {
  1: 'rotated latitude and longitude',
  2: 'stretched latitude and longitude',
  3: 'stretched and rotated latitude and longitude',
  12: 'transverse Mercator',
  31: 'Albers equal area',
  40: 'Gaussian latitude and longitude',
  41: 'rotated Gaussian',
  50: 'spherical harmonics',
  90: 'space view',
  101: 'unstructured',
  110: 'equatorial azimuthal equidistant',
  140: 'Lambert azimuthal equal area',
  32768: 'rotated, Arakawa E, local',
  32769: 'rotated, Arakawa, local',
};
