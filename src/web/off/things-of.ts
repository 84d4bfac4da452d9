import type { Car } from '#car';

/** Everything that may come off, by name. */
export const thingsOf = (car: Car): readonly { readonly value: string; readonly label: string }[] => {
  const named = (id: string, name: string | undefined) => ({
    value: id,
    label: name === undefined || name === id ? id : `${name} (${id})`,
  });
  return [
    ...car.parts.filter(({ staysOn }) => staysOn !== true).map(({ id, name }) => named(id, name)),
    ...(car.panels ?? []).map(({ id, name }) => named(id, name)),
    ...car.lines.map(({ id, name }) => named(id, name)),
  ].sort((a, b) => a.label.localeCompare(b.label, 'en'));
};
