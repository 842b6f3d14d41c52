package phrasecensus.music.harmony;

import java.util.List;

/**
 * The tonal centres of a solo.
 *
 * @param spans in order, covering the solo without gaps; empty for a solo of no length
 * @param whole the centre of the whole solo; it may be one that is nowhere the local centre, as when
 *     a tonic chord ends each chorus that otherwise moves away from it
 */
public record TonalCentres(List<TonalCentreSpan> spans, TonalCentre whole) {
  public TonalCentres {
    spans = List.copyOf(spans);
  }
}
