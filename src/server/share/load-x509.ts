/** What the certificate maker's own parts keep about their classes; they ask the language for it, which has not got it. */
const kept = new WeakMap<object, Map<unknown, unknown>>();

const metadata = {
  defineMetadata: (name: unknown, value: unknown, of: object): void => {
    kept.set(of, (kept.get(of) ?? new Map<unknown, unknown>()).set(name, value));
  },
  getOwnMetadata: (name: unknown, of: object): unknown => kept.get(of)?.get(name),
  getMetadata: (name: unknown, of: object): unknown => {
    for (let one: unknown = of; typeof one === "function" || (typeof one === "object" && one !== null);) {
      const names = kept.get(one);
      if (names?.has(name)) return names.get(name);
      one = Object.getPrototypeOf(one);
    }
    return undefined;
  },
};

/** Loads the certificate maker; only a server that shares does, and it needs three words of the metadata proposal. */
export function loadX509(): Promise<typeof import("@peculiar/x509")> {
  for (const [name, value] of Object.entries(metadata)) {
    if (!(name in Reflect)) Object.defineProperty(Reflect, name, { value, configurable: true });
  }
  return import("@peculiar/x509");
}
