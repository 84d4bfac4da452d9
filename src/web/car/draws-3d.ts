let known: boolean | null = null;

/** Does this browser draw in three dimensions? Tried once; what was taken for it is given back. */
export function draws3d(): boolean {
  known ??= tried();
  return known;
}

function tried(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}
