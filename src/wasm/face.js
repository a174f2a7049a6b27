// SPDX-License-Identifier: Apache-2.0
// The module as users of it see it: call(verb, texts) answers with JSON text or throws an EngineRefusal with `code`,
// `message` and `problems`. Linked behind emscripten's loader.
class EngineRefusal extends Error {
  constructor({ code, message, problems }) {
    super(message);
    this.name = 'EngineRefusal';
    this.code = code;
    this.problems = problems;
  }
}

const utf8 = { writer: new TextEncoder(), reader: new TextDecoder() };

// The memory may have moved while the engine worked: take HEAPU8 anew for each look.
function giveArgument(text) {
  const bytes = utf8.writer.encode(text);
  const at = _duskwire_argument(bytes.length);
  HEAPU8.set(bytes, at);
}

Module['call'] = (verb, given = []) => {
  giveArgument(verb);
  given.forEach(giveArgument);
  const refused = _duskwire_call();
  const at = _duskwire_answer();
  const text = utf8.reader.decode(HEAPU8.subarray(at, at + _duskwire_answer_bytes()));
  if (refused) throw new EngineRefusal(JSON.parse(text));
  return text;
};

let photographSize = [0, 0];

Module['givePhotograph'] = (rgba, width, height) => {
  const at = _duskwire_night_room(width, height);
  HEAPU8.set(rgba, at);
  _duskwire_night_take();
  photographSize = [width, height];
};

// A copy, so that it may be handed to another thread.
Module['takePicture'] = () => {
  const at = _duskwire_night_rgba();
  const bytes = HEAPU8.slice(at, at + _duskwire_night_bytes());
  return new ImageData(new Uint8ClampedArray(bytes.buffer), photographSize[0], photographSize[1]);
};
