//! What stands for a name in a sentence.

use fluent_bundle::FluentValue;

/// A text, or a whole number that a sentence may count by. Other numbers come as text, rounded to
/// what is known of them.
#[derive(Debug, Clone)]
pub struct Value(FluentValue<'static>);

impl<T: Told + ?Sized> From<&T> for Value {
    fn from(told: &T) -> Self {
        told.told()
    }
}

impl From<Value> for FluentValue<'_> {
    fn from(value: Value) -> Self {
        value.0
    }
}

/// What can stand for a name.
pub trait Told {
    /// As a sentence takes it.
    fn told(&self) -> Value;
}

impl<T: Told + ?Sized> Told for &T {
    fn told(&self) -> Value {
        (**self).told()
    }
}

impl Told for str {
    fn told(&self) -> Value {
        Value(FluentValue::from(self.to_owned()))
    }
}

impl Told for String {
    fn told(&self) -> Value {
        self.as_str().told()
    }
}

impl Told for std::borrow::Cow<'_, str> {
    fn told(&self) -> Value {
        (**self).told()
    }
}

impl Told for char {
    fn told(&self) -> Value {
        self.to_string().told()
    }
}

/// Whole numbers, by which a sentence may choose its plural.
macro_rules! whole {
    ($($number:ty),+) => {
        $(impl Told for $number {
            fn told(&self) -> Value {
                Value(FluentValue::from(*self))
            }
        })+
    };
}

whole!(u8, u16, u32, u64, usize, i32, i64);
