import type { Answers } from '../../contract/answers';

type Tub = Answers['situation']['rooms'][number]['enclosures'][number];

const rank = { sighted: 0, exposed: 1, healthy: 2 };

/** The enclosures a sighting is likeliest in: those seen before, then by exposure, then lately checked ones. */
export function inLikelyOrder(rooms: Answers['situation']['rooms'], find: string): Tub[] {
  const wanted = find.trim().toLowerCase();
  const fits = (tub: Tub) =>
    [tub.name, tub.enclosure, ...tub.animals].some((name) => name.toLowerCase().includes(wanted));
  return rooms
    .flatMap((room) => room.enclosures)
    .filter(fits)
    .sort(
      (a, b) =>
        rank[a.danger] - rank[b.danger] ||
        (b.exposure ?? 0) - (a.exposure ?? 0) ||
        (b.last_checked ?? '').localeCompare(a.last_checked ?? ''),
    );
}
