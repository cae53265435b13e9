/** Stands in for the recogniser package's Blob polyfill, which asks for a document and so fails in a worker. */
const PlatformBlob = globalThis.Blob;
export { PlatformBlob as Blob };
