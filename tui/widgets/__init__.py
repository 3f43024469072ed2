"""Parts of a screen that know no screen and no desk."""
