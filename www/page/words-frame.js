/** The frame of the page: titles, the choice of language, and what joins words to each other. */
export const frameWords = {
  // Titles, and what stands where nothing runs
  page_title: 'Crestrail: a wooden chair from its sizes',
  page_about: 'Choose the sizes of a wooden chair and get its picture, joints, cutting list and price.',
  showroom_about: 'Choose the sizes of a wooden chair, see it, and ask its maker for a quote.',
  no_script: 'This page computes a chair on your own device, and needs JavaScript and WebAssembly to do so. Please allow both for this page.',
  papers_lost: 'The part of the page that makes papers could not be loaded. Look to the network and try again. ({why})',

  // Where the page does not come so far as to show a chair
  trouble_load: 'The page did not come through whole. It may have been cut off on the way, or this browser may be too old for it. Look to the connection and try again; a network in a hotel or a train may want you to sign in first. On a site of your own, see that the whole folder is there.',
  trouble_slow: 'The page is still on its way. The connection seems slow: wait a little longer, or try again.',
  trouble_kept: 'What you have kept in this browser stays as it is.',
  try_again: 'Try again',
  trouble_cut: 'The file {file} did not come through whole. Look to the connection and try again.',
  trouble_absent: 'The site does not give out the file {file} (its answer: {status}). Try again later. On a site of your own, copy the whole folder there once more.',
  trouble_other: 'Something else came in the place of the file {file}, as happens where a network wants you to sign in first. Sign in, then try again. On a site of your own, copy the whole folder there once more.',
  trouble_no_wasm: 'This browser cannot compute here: WebAssembly is missing or switched off. Use a newer browser, or allow WebAssembly for this page; some browsers switch it off for safety.',
  trouble_wasm_forbidden: 'This site does not let the page compute: its Content-Security-Policy forbids WebAssembly. Whoever runs the site can allow it there with “wasm-unsafe-eval”. A browser set to the highest safety forbids it too.',
  trouble_worker: 'The page may not start its worker, the part that computes. An add-on of the browser may stop it. Whoever runs the site can allow it in the Content-Security-Policy with “worker-src \'self\'”.',
  trouble_core: 'The part of the page that computes did not start ({why}). Try again; if that does not help, use another browser.',
  worker_forbidden: 'workers are forbidden here',

  // Language
  language: 'Language',
  language_lost: 'The words in {language} could not be loaded ({why}), so the page is in English. Look to the network and load the page again.',
  language_unkept: 'This browser does not let the page remember a language, so it stays as it is.',

  // What joins words
  comma: ', ',
  semicolon: '; ',
  pair: '{name}: {value}',
  headed: '{name}:',

  unit_board_feet: 'bd ft',
  unit_cm3: 'cm³',
  unit_m3: 'm³',
  unit_hours: 'h',
};
