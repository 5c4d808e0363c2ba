/**
 * `make` worked out once for each thing, however often it is looked at: for what is made of an answer, and takes
 * long with a thousand enclosures. The thing never changes after; once it is let go, so is what was made of it.
 */
export function once<Thing extends object, Made>(make: (thing: Thing) => Made): (thing: Thing) => Made {
  const made = new WeakMap<Thing, Made>();
  return (thing) => {
    const known = made.get(thing);
    if (known !== undefined) return known;
    const fresh = make(thing);
    made.set(thing, fresh);
    return fresh;
  };
}
