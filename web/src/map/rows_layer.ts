// Planting rows as thin lines at middle scales. So that they stay lines and do not run together, only every second,
// fourth, ... row is drawn: the buffer holds the rows sorted by how often two divides their number, and a prefix of it
// is drawn.
import type { CustomLayerInterface, CustomRenderMethodInput, Map as LibreMap } from 'maplibre-gl';
import { LEAF, rgb } from './colours';
import { metresPerPixel, shifted } from './mercator';
import type { Places } from './places';
import { buffer, program, uniforms } from './shader';

export const ROWS_FROM_ZOOM = 13.5;
const LEVELS = 8;
const LEAST_PIXELS = 6;

const VERTEX = `#version 300 es
layout(location = 0) in vec2 offset;
uniform mat4 matrix;
void main() { gl_Position = matrix * vec4(offset, 0.0, 1.0); }`;

const FRAGMENT = `#version 300 es
precision mediump float;
uniform vec4 ink;
out vec4 colour;
void main() { colour = vec4(ink.rgb * ink.a, ink.a); }`;

export interface SortedRows {
  lines: Float32Array<ArrayBuffer>;
  /** vertices to draw when every 2^level-th row is shown */
  upTo: number[];
}

export function sortRows(places: Places): SortedRows {
  const byLevel: number[][] = Array.from({ length: LEVELS }, () => []);
  const runs = places.marks.length / 4;
  for (let r = 0; r < runs; r++) byLevel[levelOf(places.marks[4 * r + 2]!)]!.push(r);
  const lines = new Float32Array(4 * runs);
  const upTo = new Array<number>(LEVELS).fill(0);
  let at = 0;
  for (let level = LEVELS - 1; level >= 0; level--) {
    for (const r of byLevel[level]!) lines.set(places.lines.subarray(4 * r, 4 * r + 4), 4 * at++);
    upTo[level] = 2 * at;
  }
  return { lines, upTo };
}

function levelOf(row: number): number {
  let level = 0;
  while (level < LEVELS - 1 && row % 2 ** (level + 1) === 0) level++;
  return level;
}

/** How far rows must be thinned so that lines stand LEAST_PIXELS apart. */
export function rowLevel(spacingPx: number): number {
  return Math.max(0, Math.min(LEVELS - 1, Math.ceil(Math.log2(LEAST_PIXELS / spacingPx))));
}

export class RowsLayer implements CustomLayerInterface {
  readonly id = 'rows';
  readonly type = 'custom' as const;
  readonly renderingMode = '2d' as const;

  #map: LibreMap | null = null;
  #program: WebGLProgram | null = null;
  #at: Record<'matrix' | 'ink', WebGLUniformLocation | null> | null = null;
  #array: WebGLVertexArrayObject | null = null;
  readonly #places: Places;
  readonly #spacingM: number;
  readonly #sorted: SortedRows;
  readonly #matrix = new Float32Array(16);

  constructor(places: Places, spacingM: number) {
    this.#places = places;
    this.#spacingM = spacingM;
    this.#sorted = sortRows(places);
  }

  onAdd(map: LibreMap, gl: WebGL2RenderingContext): void {
    this.#map = map;
    this.#program = program(gl, VERTEX, FRAGMENT);
    this.#at = uniforms(gl, this.#program, ['matrix', 'ink']);
    this.#array = gl.createVertexArray();
    gl.bindVertexArray(this.#array);
    buffer(gl, this.#sorted.lines);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 2, gl.FLOAT, false, 0, 0);
    gl.bindVertexArray(null);
  }

  onRemove(_map: LibreMap, gl: WebGL2RenderingContext): void {
    gl.deleteVertexArray(this.#array);
    gl.deleteProgram(this.#program);
  }

  render(gl: WebGL2RenderingContext, input: CustomRenderMethodInput): void {
    const map = this.#map!;
    const zoom = map.getZoom();
    if (zoom < ROWS_FROM_ZOOM) return;
    const spacingPx = this.#spacingM / metresPerPixel(zoom, map.getCenter().lat);
    const matrix = input.defaultProjectionData.mainMatrix as unknown as ArrayLike<number>;
    gl.useProgram(this.#program);
    gl.uniformMatrix4fv(this.#at!.matrix, false, shifted(matrix, this.#places.origin, this.#matrix));
    gl.uniform4fv(this.#at!.ink, [...rgb(LEAF), zoom < 17 ? 0.55 : 0.3]);
    gl.bindVertexArray(this.#array);
    gl.drawArrays(gl.LINES, 0, this.#sorted.upTo[rowLevel(spacingPx)]!);
    gl.bindVertexArray(null);
  }
}
