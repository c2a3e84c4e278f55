
// A part, compiled as it arrives; where the host does not call it a program, from its bytes, which asks for no type.
async function instantiate(source, imports) {
  const response = await source;
  if (!response.ok) throw new Error(`${response.url}: the host answered ${response.status}`);
  if (WebAssembly.instantiateStreaming && response.headers.get("content-type") === "application/wasm") {
    return WebAssembly.instantiateStreaming(response, imports);
  }
  return WebAssembly.instantiate(await response.arrayBuffer(), imports);
}
