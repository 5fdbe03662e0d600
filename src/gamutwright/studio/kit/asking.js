// @ts-check
// Asking the studio's server: plain data in and out, and its errors as words.

import { txt } from "./words.js";

/** An answer that is no success: `status` 0 where nobody answered. */
export class Refused extends Error {
  /** @param {number} status @param {any} data */
  constructor(status, data) {
    super(data && data.rule ? `${data.value}: ${data.rule}. ${data.next_step}` : txt("The studio does not answer."));
    this.status = status;
    this.data = data;
  }
}

/**
 * @param {string} method
 * @param {string} path
 * @param {any} [body]
 * @param {{version?: string, signal?: AbortSignal, type?: string}} [how] `type` of a body that is sent as it is
 * @returns {Promise<any>}
 */
export async function ask(method, path, body, how = {}) {
  /** @type {Record<string, string>} */
  const headers = {};
  if (body !== undefined) headers["Content-Type"] = how.type ?? "application/json";
  if (how.version !== undefined) headers["If-Match"] = `"${how.version}"`;
  let answer;
  try {
    const sent = body === undefined || how.type ? body : JSON.stringify(body);
    answer = await fetch(path, { method, headers, body: sent, signal: how.signal });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Refused(0, null);
  }
  const data = await answer.json().catch(() => null);
  if (!answer.ok) throw new Refused(answer.status, data);
  return data;
}
