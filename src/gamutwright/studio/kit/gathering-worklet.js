// @ts-check
// Runs beside the sound: hands on what the microphone hears in pieces of about 43 ms, each with its peak, one channel.

const PIECE = 2048;

class Gathering extends /** @type {any} */ (globalThis).AudioWorkletProcessor {
  constructor() {
    super();
    this.piece = new Float32Array(PIECE);
    this.count = 0;
    // Whoever ends a recording wants what has come so far, and to be told that it is all.
    this.port.onmessage = () => this.hand(true);
  }

  /** @param {boolean} isLast */
  hand(isLast) {
    const samples = this.piece.slice(0, this.count);
    this.count = 0;
    this.port.postMessage({ samples, isLast }, [samples.buffer]);
  }

  /** @param {Float32Array[][]} inputs */
  process(inputs) {
    const heard = inputs[0]?.[0];
    if (heard) {
      for (let at = 0; at < heard.length;) {
        const some = Math.min(PIECE - this.count, heard.length - at);
        this.piece.set(heard.subarray(at, at + some), this.count);
        this.count += some;
        at += some;
        if (this.count === PIECE) this.hand(false);
      }
    }
    return true;
  }
}

/** @type {any} */ (globalThis).registerProcessor("gathering", Gathering);
