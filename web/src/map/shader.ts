// The few calls to WebGL that both drawing layers share.

function compiled(gl: WebGL2RenderingContext, kind: number, source: string): WebGLShader {
  const shader = gl.createShader(kind)!;
  gl.shaderSource(shader, source);
  gl.compileShader(shader);
  if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS) && !gl.isContextLost()) {
    throw new Error(`map: ${gl.getShaderInfoLog(shader) ?? 'shader'}`);
  }
  return shader;
}

export function program(gl: WebGL2RenderingContext, vertex: string, fragment: string): WebGLProgram {
  const made = gl.createProgram()!;
  gl.attachShader(made, compiled(gl, gl.VERTEX_SHADER, vertex));
  gl.attachShader(made, compiled(gl, gl.FRAGMENT_SHADER, fragment));
  gl.linkProgram(made);
  if (!gl.getProgramParameter(made, gl.LINK_STATUS) && !gl.isContextLost()) {
    throw new Error(`map: ${gl.getProgramInfoLog(made) ?? 'program'}`);
  }
  return made;
}

/** Uniform locations by name. */
export function uniforms<Name extends string>(
  gl: WebGL2RenderingContext,
  from: WebGLProgram,
  names: readonly Name[],
): Record<Name, WebGLUniformLocation | null> {
  return Object.fromEntries(names.map((name) => [name, gl.getUniformLocation(from, name)])) as Record<
    Name,
    WebGLUniformLocation | null
  >;
}

export function buffer(gl: WebGL2RenderingContext, data: ArrayBufferView<ArrayBuffer>): WebGLBuffer {
  const made = gl.createBuffer()!;
  gl.bindBuffer(gl.ARRAY_BUFFER, made);
  gl.bufferData(gl.ARRAY_BUFFER, data, gl.STATIC_DRAW);
  return made;
}
