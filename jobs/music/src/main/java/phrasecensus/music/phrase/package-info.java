/** Where phrases end: rules that cut a line into phrases, and how well they agree with people. */
package phrasecensus.music.phrase;
