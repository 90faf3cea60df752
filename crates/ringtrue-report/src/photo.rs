//! Photos of a record as they stand on a page: upright, opaque, no larger than print shows. The
//! file itself is attached with the record, as it was.

use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits, Rgb, RgbImage};

/// Most pixels along the longer side: 80 mm at 300 to the inch, with some to spare.
const MOST: u32 = 1000;
/// Largest photo that is decoded, along either side.
const LARGEST: u32 = 20_000;
/// Most memory that decoding may take.
const MEMORY: u64 = 256 << 20;
/// JPEG quality on the page.
const QUALITY: u8 = 82;

/// A photo for a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct ForPage {
    /// JPEG.
    pub(crate) jpeg: Vec<u8>,
    /// Width in pixels.
    pub(crate) width: u32,
}

/// Makes a photo ready for a page; `None` where the file is no picture that can be read.
pub(crate) fn for_page(content: &[u8]) -> Option<ForPage> {
    let mut reader = ImageReader::new(Cursor::new(content)).with_guessed_format().ok()?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(LARGEST);
    limits.max_image_height = Some(LARGEST);
    limits.max_alloc = Some(MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().ok()?;
    let orientation = decoder.orientation().ok()?;
    let mut picture = DynamicImage::from_decoder(decoder).ok()?;
    if picture.width().max(picture.height()) > MOST {
        picture = picture.thumbnail(MOST, MOST);
    }
    picture.apply_orientation(orientation);
    let opaque = on_paper(&picture);
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&opaque).ok()?;
    Some(ForPage { jpeg, width: opaque.width() })
}

/// What is not covered shows white paper.
fn on_paper(picture: &DynamicImage) -> RgbImage {
    let pixels = picture.to_rgba8();
    RgbImage::from_fn(pixels.width(), pixels.height(), |x, y| {
        let [r, g, b, cover] = pixels.get_pixel(x, y).0;
        let over = |colour: u8| {
            let (colour, cover) = (u32::from(colour), u32::from(cover));
            u8::try_from((colour * cover + 255 * (255 - cover)) / 255).unwrap_or(u8::MAX)
        };
        Rgb([over(r), over(g), over(b)])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn png(width: u32, height: u32) -> Vec<u8> {
        let picture = image::RgbaImage::from_fn(width, height, |x, _| {
            image::Rgba([200, 10, 10, if x < width / 2 { 255 } else { 0 }])
        });
        let mut out = Vec::new();
        picture.write_to(&mut Cursor::new(&mut out), image::ImageFormat::Png).unwrap();
        out
    }

    #[test]
    fn a_photo_is_made_small_and_opaque_and_what_is_none_is_left_out() {
        let page = for_page(&png(3000, 60)).unwrap();
        assert_eq!(page.width, MOST);
        let read = image::load_from_memory(&page.jpeg).unwrap().to_rgb8();
        assert_eq!((read.width(), read.height()), (1000, 20));
        assert!(read.get_pixel(10, 10).0[1] < 60 && read.get_pixel(990, 10).0[1] > 240);
        assert_eq!(for_page(&png(40, 30)).unwrap().width, 40);
        for content in [&b""[..], b"%PDF-1.7", b"\x89PNG not really", &png(40, 30)[..60]] {
            assert_eq!(for_page(content), None);
        }
    }

    #[test]
    fn no_changed_byte_of_a_photo_breaks_it() {
        let whole = png(24, 16);
        for at in 0..whole.len() {
            let mut changed = whole.clone();
            changed[at] ^= 0x41;
            // Read or left out; the page never fails for it.
            drop(for_page(&changed));
        }
    }
}
