/** The frame of the page: titles, the choice of language, and what joins words to each other. */
export const frameWords = {
  // Titles, and what stands where nothing runs
  page_title: 'Crestrail: a wooden chair from its sizes',
  page_about: 'Choose the sizes of a wooden chair and get its picture, joints, cutting list and price.',
  showroom_about: 'Choose the sizes of a wooden chair, see it, and ask its maker for a quote.',
  no_script: 'This page computes a chair on your own device, and needs JavaScript and WebAssembly to do so. Please allow both for this page.',
  papers_lost: 'The part of the page that makes papers could not be loaded. Look to the network and try again. ({why})',

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
