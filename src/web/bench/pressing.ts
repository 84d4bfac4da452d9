/** True from a finger or button going down on the page to its going up. */
let isPressing = false;

if (typeof addEventListener === 'function') {
  addEventListener('pointerdown', () => (isPressing = true), { capture: true });
  for (const end of ['pointerup', 'pointercancel'] as const)
    addEventListener(end, () => (isPressing = false), { capture: true });
}

/** Does what may move keys about the page only when the key that is being pressed has been: else it slips away from under the finger. */
export function afterPress(then: () => void): void {
  if (!isPressing) return then();
  const last = (): void => {
    removeEventListener('pointerup', last);
    removeEventListener('pointercancel', last);
    setTimeout(then, 0);
  };
  addEventListener('pointerup', last);
  addEventListener('pointercancel', last);
}
