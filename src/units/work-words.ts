/** Minutes of work in words: nobody times a spanner closer than half a minute, nor a job closer than one. */
export const minutesWords = (minutes: number): string =>
  `${minutes < 10 ? Math.round(minutes * 2) / 2 : Math.round(minutes)} min`;

/** What runs out, in words: hundredths of a litre below one, else tenths. */
export const litresWords = (litres: number): string => `${litres.toFixed(litres < 1 ? 2 : 1)} L`;
