import type { Car } from '#car';

/** "the turbine housing": a part as it is spoken of, from its name up to the first comma, else its id. */
export function partWords(car: Car, id: string): string {
  const name = car.parts
    .find((part) => part.id === id)
    ?.name?.split(/[,(:;]/)[0]
    ?.trim();
  if (name === undefined || name === '') return id;
  const [first = ''] = name.split(' ');
  const isWord = /^\p{Lu}\p{Ll}+$/u.test(first);
  return `the ${isWord ? name[0]!.toLowerCase() + name.slice(1) : name}`;
}
