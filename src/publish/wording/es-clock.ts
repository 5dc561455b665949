// Clock times within a Spanish sentence.

/** "las 9:00 am", but "la 1:00 pm". */
export const theClock = (clock: string): string => `${clock.startsWith('1:') ? 'la' : 'las'} ${clock}`;

/** The same for a moment that may carry its date: "el jue, 26 nov, 4:30 am". */
export const theMoment = (moment: string): string => (/^\d/.test(moment) ? theClock(moment) : `el ${moment}`);

/** "a las 9:00 am", "el jue, 26 nov, 4:30 am". */
export const atMoment = (moment: string): string =>
  /^\d/.test(moment) ? `a ${theClock(moment)}` : theMoment(moment);
