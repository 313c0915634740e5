/** What survives a reload on this device. A browser that keeps nothing (private windows) costs only that. */
export function readKept(key: string): unknown {
  try {
    const text = localStorage.getItem(`coatwright ${key}`);
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

export function keep(key: string, value: unknown) {
  try {
    localStorage.setItem(`coatwright ${key}`, JSON.stringify(value));
  } catch {
    // Full or forbidden: the page goes on without memory.
  }
}

export function forget(key: string) {
  try {
    localStorage.removeItem(`coatwright ${key}`);
  } catch {
    // Forbidden: then nothing was kept either.
  }
}
