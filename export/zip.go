package export

import (
	"archive/zip"
	"bytes"
)

// Zip packs files into one, in their order and without a date, so that the
// same files give the same bytes.
func Zip(files []File) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range files {
		part, err := w.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Deflate})
		if err == nil {
			_, err = part.Write(f.Data)
		}
		if err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return b.Bytes(), err
}
