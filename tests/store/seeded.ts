// Random numbers that can be had again: the seed is printed, and may be given as PITWARD_SEED.

/** Numbers in [0, 1), by the generator known as mulberry32. */
export function seeded(): () => number {
  const given = Number(process.env['PITWARD_SEED']);
  let state = Number.isInteger(given) && given > 0 ? given : Math.floor(Math.random() * 2 ** 32);
  console.log(`PITWARD_SEED=${state}`);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
