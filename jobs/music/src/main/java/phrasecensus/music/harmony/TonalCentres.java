package phrasecensus.music.harmony;

import java.util.List;

/**
 * The tonal centres of a solo.
 *
 * @param spans in order, covering the solo without gaps; empty for a solo of no length
 * @param whole the centre of the whole solo; it may be one that is nowhere the local centre, as
 *     when a tonic chord ends each chorus that otherwise moves away from it
 * @param scale the scale of the whole solo; null where its centre is unknown or modal and only
 *     chords tell its mode
 * @param source where the centre of the whole solo comes from
 */
public record TonalCentres(
    List<TonalCentreSpan> spans,
    TonalCentre whole,
    CentreScale scale,
    TonalCentreSpan.Source source) {
  public TonalCentres {
    spans = List.copyOf(spans);
  }
}
