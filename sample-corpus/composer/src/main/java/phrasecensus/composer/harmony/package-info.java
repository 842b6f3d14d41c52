/** Note names, keys, chord symbols and the scales that go with them. */
package phrasecensus.composer.harmony;
