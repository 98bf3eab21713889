// Drawings that the library makes.
import { useEffect, useRef } from 'preact/hooks';

/** A drawing of the library, set into the page as nodes. */
export function Svg({ text, name }: { text: string; name: string }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
    if (parsed.nodeName === 'svg') place.current?.replaceChildren(document.importNode(parsed, true));
  }, [text]);
  return <div class="drawing" ref={place} role="group" aria-label={name} />;
}
