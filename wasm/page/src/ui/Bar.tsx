// The bar in its mould, to scale: the way around the recipe.
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { drag } from '../lamella';
import type { Certainty, Picture } from '../lamella';
import { edit, looked, put, useCertainty, type Look, type Place } from '../store';
import { set } from '../change';
import { levelOf } from '../certain';
import { length, percent, weighed } from '../units';

const mm = (text: string): number => parseFloat(text);
const WALL = 4;
/** Up to so many layers a phone has room for a line more with each. */
const MOST_LINES = 8;

interface BarProps {
  look: Look;
  place: Place;
  mould: number;
  /** Only a core of the bar, for a narrow screen beside what is looked at. */
  core?: boolean;
  /** What is shown of the layers instead of their colours. */
  tint?: Tint;
}

export interface Tint {
  /** What the picture then is, for those who do not see it. */
  said: string;
  /** Whether it is that of before the last change. */
  old: boolean;
  /** The colour of a layer; nothing for none. */
  colour: (index: number) => string | undefined;
  note: (index: number) => ComponentChildren;
}

const pick = (index: number) => put({ place: { at: 'layer', index } });

export function Bar({ look, place, mould, core, tint }: BarProps) {
  const { picture, plan } = look;
  const picked = place.at === 'layer' ? place.index : -1;
  const sure = useCertainty(look.recipe);
  if (!picture) return <p class="told">The measures of this mould need mending before it can be drawn.</p>;
  if (core) return <Core picture={picture} look={look} picked={picked} mould={mould} />;
  const rows = plan.layers.length;
  return (
    <div class={`bar${tint ? ' tinted' : ''}${tint?.old ? ' old' : ''}`}>
      <Section picture={picture} look={look} picked={picked} mould={mould} tint={tint} />
      <Leaders picture={picture} rows={rows} />
      <ol class="labels" aria-label="Layers, from the top">
        {plan.layers
          .map((layer, index) => ({ layer, index, jug: plan.jugs[layer.jug]! }))
          .reverse()
          .map(({ layer, index, jug }) => (
            <li key={index}>
              <button
                type="button"
                class={index === picked ? 'label here' : 'label'}
                aria-pressed={index === picked}
                onClick={() => pick(index)}
              >
                <span class="name">{layer.name}</span>
                {tint ? (
                  <span class="note">{tint.note(index)}</span>
                ) : (
                  <span class="note">
                    {length(picture.layers[index]!.thickness)} ·{' '}
                    {weighed(layer.portion, plan.scales[jug.portion.scale]!.step)}
                    <span class="wide-only">
                      superfat {percent(jug.superfat)}
                      <Between sure={sure} jug={layer.jug} />
                    </span>
                    {rows <= MOST_LINES && (
                      <span class="narrow-only">
                        superfat {percent(jug.superfat)}
                        <Between sure={sure} jug={layer.jug} short />
                      </span>
                    )}
                  </span>
                )}
              </button>
            </li>
          ))}
      </ol>
    </div>
  );
}

function Section(props: { picture: Picture; look: Look; picked: number; mould: number; tint: Tint | undefined }) {
  const { picture, look, picked, mould, tint } = props;
  const wide = mm(picture.width) + 2 * WALL;
  const high = mm(picture.depth) + WALL;
  const depth = mm(picture.depth);
  const fill = depth - mm(picture.fill);
  const names = look.plan.layers.map((layer) => layer.name).join(', ');
  return (
    <div class="section">
      <svg viewBox={`${-WALL} 0 ${wide} ${high}`} preserveAspectRatio="xMidYMid meet" role="group"
        aria-label={`Cross-section of the bar in its mould, ${length(picture.depth)} deep. From the bottom: ${names}.${tint ? ` ${tint.said}` : ''}`}>
        <path class="wall" d={picture.hollow} stroke-width={WALL * 1.6} />
        <path class="hollow" d={`${picture.hollow}Z`} />
        {picture.to_scale && fill > 0 && (
          <line class="fill" x1={0} x2={mm(picture.width)} y1={fill} y2={fill} />
        )}
        <Bands picture={picture} picked={picked} tint={tint} />
        <Edges picture={picture} look={look} picked={picked} mould={mould} />
      </svg>
      {!picture.to_scale && <p class="faint small">No mould in the recipe: drawn by volume.</p>}
    </div>
  );
}

function Bands({ picture, picked, tint }: { picture: Picture; picked: number; tint: Tint | undefined }) {
  return (
    <g>
      {picture.layers.map((layer, index) =>
        layer.outline.path === '' ? null : (
          <path
            key={index}
            class={index === picked ? 'band here' : 'band'}
            fill={tint ? (tint.colour(index) ?? 'transparent') : layer.swatch}
            d={layer.outline.path}
            onClick={() => pick(index)}
          />
        ),
      )}
      {picked >= 0 && picture.layers[picked]?.outline.path ? (
        <path class="chosen" d={picture.layers[picked].outline.path} />
      ) : null}
    </g>
  );
}

/** Edges that can be dragged: all inner ones by mouse, those of the picked layer also by finger and by key. */
function Edges(props: { picture: Picture; look: Look; picked: number; mould: number }) {
  const { picture, look, picked, mould } = props;
  const depth = mm(picture.depth);
  const [held, setHeld] = useState(-1);
  const start = useRef({ y: 0, from: 0, scale: 1 });
  const last = useRef('');
  const move = (below: number, height: number) => {
    const now = looked();
    if (!('plan' in now)) return;
    const text = `${height.toFixed(2)} mm`;
    if (text === last.current) return;
    last.current = text;
    const moved = drag(now.recipe, mould, below, text);
    if (!moved) return;
    edit((recipe) => {
      const lower = recipe.layers[below]?.share;
      if (lower === moved.below) return recipe;
      return set(set(recipe, ['layers', below, 'share'], moved.below), ['layers', below + 1, 'share'], moved.above);
    });
  };
  return (
    <g>
      {picture.layers.slice(0, -1).map((layer, below) => {
        if (layer.outline.path === '') return null;
        const height = mm(layer.outline.to);
        const y = depth - height;
        const near = below === picked || below === picked - 1;
        const names = `${look.plan.layers[below]!.name} and ${look.plan.layers[below + 1]!.name}`;
        return (
          <g
            key={below}
            class={`edge${near ? ' near' : ''}${held === below ? ' held' : ''}`}
            role="slider"
            {...{ tabindex: near ? 0 : -1 }}
            aria-orientation="vertical"
            aria-label={`Edge between ${names}`}
            aria-valuemin={0}
            aria-valuemax={depth}
            aria-valuenow={height}
            aria-valuetext={length(layer.outline.to)}
            onKeyDown={(event) => {
              const by = { ArrowUp: 0.5, ArrowDown: -0.5, PageUp: 5, PageDown: -5 }[event.key];
              if (by === undefined) return;
              event.preventDefault();
              move(below, height + by);
            }}
            onPointerDown={(event) => {
              event.preventDefault();
              const svg = event.currentTarget.ownerSVGElement!;
              const box = svg.getScreenCTM();
              start.current = { y: event.clientY, from: height, scale: box?.d ?? 1 };
              event.currentTarget.setPointerCapture(event.pointerId);
              setHeld(below);
            }}
            onPointerMove={(event) => {
              if (held !== below) return;
              const { y: from, from: at, scale } = start.current;
              move(below, at - (event.clientY - from) / scale);
            }}
            onPointerUp={() => setHeld(-1)}
            onPointerCancel={() => setHeld(-1)}
          >
            <rect class="grip-area" x={-WALL} width={mm(picture.width) + 2 * WALL} y={y - (near ? 1.6 : 0.7)} height={near ? 3.2 : 1.4} />
            {near && <circle class="grip" cx={mm(picture.width) / 2} cy={y} r={1.8} />}
          </g>
        );
      })}
    </g>
  );
}

interface BetweenProps {
  sure: Certainty | undefined;
  jug: number;
  /** The lower end alone, for a narrow screen. */
  short?: boolean;
}

/** What a superfat cannot leave, in few letters; what the plan makes lye-heavy is told apart from what may be so at worst. */
function Between({ sure, jug, short }: BetweenProps) {
  const figures = sure?.jugs[jug]?.figures;
  if (!figures) return null;
  const { low, high } = figures.guaranteed;
  const range = short ? percent(low) : `${percent(low).replace(/\u202f%$/, '')} to ${percent(high)}`;
  switch (levelOf(figures)) {
    // On a narrow screen it has a line of its own.
    case 'heavy':
      return (
        <>
          {short ? '' : ', '}
          <span class="heavy">lye-heavy{short ? '' : ` (${range})`}</span>
        </>
      );
    case 'may-be':
      return (
        <>
          {short ? '' : ', '}
          <span class="may-be">may be {range}</span>
        </>
      );
    case 'clear':
      return short ? null : <>, {range}</>;
  }
}

/** Lines from the bands to their names, laid by what the screen makes of both. */
function Leaders({ picture, rows }: { picture: Picture; rows: number }) {
  const svg = useRef<SVGSVGElement>(null);
  const [size, setSize] = useState({ tall: 1, scale: 0, top: 0 });
  useLayoutEffect(() => {
    const own = svg.current;
    const section = own?.parentElement?.previousElementSibling?.querySelector('svg');
    if (!own || !section) return;
    const measure = () => {
      const box = own.getBoundingClientRect();
      const drawn = section.getBoundingClientRect();
      const wide = mm(picture.width) + 2 * WALL;
      const high = mm(picture.depth) + WALL;
      const scale = Math.min(drawn.width / wide, drawn.height / high);
      const top = drawn.top - box.top + (drawn.height - high * scale) / 2;
      setSize((old) =>
        old.tall === box.height && old.scale === scale && old.top === top ? old : { tall: box.height, scale, top },
      );
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(own);
    watch.observe(section);
    return () => watch.disconnect();
  }, [picture.width, picture.depth, rows]);
  const depth = mm(picture.depth);
  const row = size.tall / rows;
  return (
    <div class="leaders">
    <svg ref={svg} viewBox={`0 0 10 ${size.tall}`} preserveAspectRatio="none" aria-hidden="true">
      {size.scale > 0 &&
        picture.layers.map((layer, index) => {
          if (layer.outline.path === '') return null;
          const from = size.top + (depth - (mm(layer.outline.from) + mm(layer.outline.to)) / 2) * size.scale;
          const to = row * (rows - 1 - index) + row / 2;
          return <path key={index} d={`M0 ${from}H2L8 ${to}H10`} vector-effect="non-scaling-stroke" />;
        })}
    </svg>
    </div>
  );
}

/** A core of the bar: a narrow slice, as deep as the bar. */
function Core(props: { picture: Picture; look: Look; picked: number; mould: number }) {
  const { picture, look, picked, mould } = props;
  const high = mm(picture.depth);
  const wide = Math.min(mm(picture.width), high / 6.2);
  const left = (mm(picture.width) - wide) / 2;
  return (
    <svg class="core" viewBox={`${left} 0 ${wide} ${high}`} preserveAspectRatio="xMidYMin meet" role="group" aria-label="Layers of the bar">
      <rect class="empty" x={left} width={wide} y={0} height={high} />
      {picture.layers.map((layer, index) => {
        if (layer.outline.path === '') return null;
        return (
          <g
            key={index}
            role="button"
            {...{ tabindex: 0 }}
            aria-pressed={index === picked}
            aria-label={look.plan.layers[index]!.name}
            onClick={() => pick(index)}
            onKeyDown={(event) => {
              if (event.key === 'Enter' || event.key === ' ') {
                event.preventDefault();
                pick(index);
              }
            }}
          >
            <path class={index === picked ? 'band here' : 'band'} fill={layer.swatch} d={layer.outline.path} />
          </g>
        );
      })}
      {picked >= 0 && picture.layers[picked]?.outline.path ? (
        <path class="chosen" d={picture.layers[picked].outline.path} />
      ) : null}
      <Edges picture={picture} look={look} picked={picked} mould={mould} />
    </svg>
  );
}
