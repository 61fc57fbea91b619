// Every seedling as a point of one vertex buffer. Only chunks that meet the view are drawn, each with the matrix
// shifted to its centre in double precision. Groups differ by shape, size and colour; a chosen species stands out by
// size and the others turn to small grey dots.
import type { CustomLayerInterface, CustomRenderMethodInput, Map as LibreMap } from 'maplibre-gl';
import { CLAY, GROUND, GROUP_CODE, INK, LEAF, rgb, STRAW } from './colours';
import { metresPerPixel, shifted, toMercator } from './mercator';
import { chunksIn, EMPTY, type Places } from './places';
import { buffer, program, uniforms } from './shader';

export const SEEDLINGS_FROM_ZOOM = 15.5;

const FADED = 4;
const CHOSEN = 8;
const HIDDEN = 255;

// From afar a seedling is a dot of two pixels, fainter the smaller it is: no shape to work out for each pixel, which
// keeps a view of hundreds of thousands quick where a processor draws.
const DOTS_BELOW_PIXELS = 2.2;

const DOT_VERTEX = `#version 300 es
layout(location = 0) in vec2 offset;
layout(location = 1) in uint kind;
uniform mat4 matrix;
uniform float size;
uniform vec3 inks[4];
flat out lowp vec4 ink;
void main() {
  uint group = kind & 3u;
  uint mode = kind >> 2u;
  bool chosen = mode == 2u;
  gl_PointSize = chosen ? 3.0 : 2.0;
  float cover = chosen ? 1.0 : mode == 1u ? 0.25 : clamp(size * size / 6.0, 0.3, 0.8);
  ink = vec4(mode == 1u ? vec3(0.5) : inks[group], 1.0) * cover;
  gl_Position = kind == 255u ? vec4(2.0, 2.0, 2.0, 1.0) : matrix * vec4(offset, 0.0, 1.0);
}`;

const DOT_FRAGMENT = `#version 300 es
precision lowp float;
flat in lowp vec4 ink;
out lowp vec4 colour;
void main() { colour = ink; }`;

const VERTEX = `#version 300 es
layout(location = 0) in vec2 offset;
layout(location = 1) in uint kind;
uniform mat4 matrix;
uniform float size;
flat out uint group;
flat out float pixels;
flat out uint mode;
void main() {
  group = kind & 3u;
  mode = kind >> 2u;
  float part = mode == 1u ? 0.45 : mode == 2u ? 1.45 : group == 0u ? 0.85 : group == 1u ? 0.8 : 1.0;
  pixels = max(size * part, mode == 2u ? 3.0 : 1.0);
  gl_PointSize = pixels + 1.0;  // half a pixel of soft edge on each side
  gl_Position = kind == 255u ? vec4(2.0, 2.0, 2.0, 1.0) : matrix * vec4(offset, 0.0, 1.0);
}`;

// Shapes of data/symbols: triangle, ring, crossed square, cross. Below 6 pixels a shape cannot be seen: a plain dot.
const FRAGMENT = `#version 300 es
precision mediump float;
flat in uint group;
flat in float pixels;
flat in uint mode;
uniform vec3 inks[4];
uniform vec3 paper;
out vec4 colour;
void main() {
  vec2 at = (gl_PointCoord * 2.0 - 1.0) * (pixels + 1.0) / pixels;
  float soft = 1.0 / pixels;
  vec3 ink = mode == 1u ? mix(vec3(0.5), paper, 0.25) : inks[group];
  float cover = 1.0;
  if (pixels >= 6.0 && mode != 1u) {
    if (group == 0u) {
      float edge = max(at.y - 0.75, abs(at.x) * 1.8 - at.y - 0.9);
      cover = 1.0 - smoothstep(-soft, soft, edge);
    } else if (group == 1u) {
      float far = length(at);
      cover = 1.0 - smoothstep(0.95 - soft, 0.95 + soft, far);
      ink = mix(paper, ink, smoothstep(0.5 - soft, 0.5 + soft, far));
    } else if (group == 2u) {
      cover = 1.0 - smoothstep(0.85 - soft, 0.85 + soft, max(abs(at.x), abs(at.y)));
      float line = min(abs(at.x), abs(at.y));
      if (pixels >= 9.0) ink = mix(paper, ink, smoothstep(0.08, 0.08 + soft, line));
    } else {
      float line = min(abs(at.x - at.y), abs(at.x + at.y));
      cover = (1.0 - smoothstep(0.3 - soft, 0.3 + soft, line)) * step(max(abs(at.x), abs(at.y)), 0.95);
    }
  } else {
    cover = 1.0 - smoothstep(1.0 - soft, 1.0 + soft, length(at));
  }
  colour = vec4(ink, 1.0) * cover;
}`;

interface Brush {
  program: WebGLProgram;
  at: Record<'matrix' | 'size' | 'inks' | 'paper', WebGLUniformLocation | null>;
}

function brush(gl: WebGL2RenderingContext, vertex: string, fragment: string): Brush {
  const made = program(gl, vertex, fragment);
  return { program: made, at: uniforms(gl, made, ['matrix', 'size', 'inks', 'paper']) };
}

export class SeedlingsLayer implements CustomLayerInterface {
  readonly id = 'seedlings';
  readonly type = 'custom' as const;
  readonly renderingMode = '2d' as const;
  /** Chunks drawn in the last frame; for tests and measuring. */
  drawn = 0;

  #map: LibreMap | null = null;
  #gl: WebGL2RenderingContext | null = null;
  #signs: Brush | null = null;
  #dots: Brush | null = null;
  #array: WebGLVertexArrayObject | null = null;
  #kinds: WebGLBuffer | null = null;
  #chosen: number | null = null;
  readonly #places: Places;
  readonly #spacingM: number;
  readonly #matrix = new Float32Array(16);

  constructor(places: Places, spacingM: number) {
    this.#places = places;
    this.#spacingM = spacingM;
  }

  /** @param species  index into the plan's species; null = none, groups are shown */
  choose(species: number | null): void {
    this.#chosen = species;
    if (this.#gl !== null && this.#kinds !== null) {
      this.#gl.bindBuffer(this.#gl.ARRAY_BUFFER, this.#kinds);
      this.#gl.bufferSubData(this.#gl.ARRAY_BUFFER, 0, codes(this.#places, species));
      this.#map?.triggerRepaint();
    }
  }

  onAdd(map: LibreMap, gl: WebGL2RenderingContext): void {
    this.#map = map;
    this.#gl = gl;
    this.#signs = brush(gl, VERTEX, FRAGMENT);
    this.#dots = brush(gl, DOT_VERTEX, DOT_FRAGMENT);
    this.#array = gl.createVertexArray();
    gl.bindVertexArray(this.#array);
    buffer(gl, this.#places.offsets as Float32Array<ArrayBuffer>);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 2, gl.FLOAT, false, 0, 0);
    this.#kinds = buffer(gl, codes(this.#places, this.#chosen));
    gl.enableVertexAttribArray(1);
    gl.vertexAttribIPointer(1, 1, gl.UNSIGNED_BYTE, 0, 0);
    gl.bindVertexArray(null);
  }

  onRemove(_map: LibreMap, gl: WebGL2RenderingContext): void {
    gl.deleteVertexArray(this.#array);
    gl.deleteProgram(this.#signs!.program);
    gl.deleteProgram(this.#dots!.program);
    this.#gl = null;
    this.#kinds = null;
  }

  render(gl: WebGL2RenderingContext, input: CustomRenderMethodInput): void {
    this.drawn = 0;
    const map = this.#map!;
    if (map.getZoom() < SEEDLINGS_FROM_ZOOM) return;
    const spacingPx = this.#spacingM / metresPerPixel(map.getZoom(), map.getCenter().lat);
    const size = Math.max(1.2, Math.min(26, 0.7 * spacingPx)) * (map.getCanvas().width / map.getCanvas().clientWidth);
    const { program: drawing, at } = size < DOTS_BELOW_PIXELS ? this.#dots! : this.#signs!;
    gl.useProgram(drawing);
    gl.uniform1f(at.size, size);
    gl.uniform3fv(at.inks, [STRAW, LEAF, INK, CLAY].flatMap(rgb));
    gl.uniform3fv(at.paper, rgb(GROUND));
    gl.bindVertexArray(this.#array);
    const bounds = map.getBounds();
    const northWest = toMercator({ lon: bounds.getWest(), lat: bounds.getNorth() });
    const southEast = toMercator({ lon: bounds.getEast(), lat: bounds.getSouth() });
    const matrix = input.defaultProjectionData.mainMatrix as unknown as ArrayLike<number>;
    for (const chunk of chunksIn(this.#places, northWest.x, northWest.y, southEast.x, southEast.y)) {
      gl.uniformMatrix4fv(at.matrix, false, shifted(matrix, chunk.centre, this.#matrix));
      gl.drawArrays(gl.POINTS, chunk.first, chunk.count);
      this.drawn++;
    }
    gl.bindVertexArray(null);
  }
}

/** One byte per place for the shader: group, and whether the species is chosen or steps back. */
export function codes(places: Places, chosen: number | null): Uint8Array<ArrayBuffer> {
  const bySpecies = new Uint8Array(256).fill(HIDDEN);
  places.species.forEach(({ group }, i) => {
    const step = chosen === null ? 0 : chosen === i ? CHOSEN : FADED;
    bySpecies[i] = (GROUP_CODE[group] ?? 3) + step;
  });
  bySpecies[EMPTY] = HIDDEN;
  return Uint8Array.from(places.kinds, (kind) => bySpecies[kind]!);
}
