// Finds containers by a part of their name, room or heat source. Pure.

export function matches({ name, room, heatSource }, typed) {
  const wanted = typed.trim().toLocaleLowerCase();
  return [name, room, heatSource].some((text) => (text ?? '').toLocaleLowerCase().includes(wanted));
}
