package layout

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math"
)

// NoValue marks a figure that the source does not have.
const NoValue = math.MaxUint32

// Writer collects a table. The caller keeps to the orders that the package
// documentation gives; Bytes checks them.
type Writer struct {
	Release  string
	Groups   []string
	Foods    []Food
	Portions []Portion
	Names    []Name
	Docs     []Doc
	Words    []Word
	Postings []uint16
	Family   []Member

	columns  []Column
	values   []byte
	texts    []string
	textByID map[string]uint32
}

// Text returns the index of s among the texts, adding it if it is new.
func (w *Writer) Text(s string) uint32 {
	id, ok := w.textByID[s]
	if !ok {
		if w.textByID == nil {
			w.textByID = make(map[string]uint32)
		}
		id = uint32(len(w.texts))
		w.textByID[s] = id
		w.texts = append(w.texts, s)
	}
	return id
}

// Column adds the figures of one nutrient, a food each, in the order of Foods:
// the value times 10 to the decimals, or NoValue.
func (w *Writer) Column(tag string, decimals int, figures []uint32) {
	width := 2
	for _, v := range figures {
		if v != NoValue && v >= math.MaxUint16 {
			width = 4
		}
	}
	w.columns = append(w.columns, Column{
		Tag: w.Text(tag), Start: uint32(len(w.values)), Decimals: uint16(decimals), Width: uint16(width),
	})
	for _, v := range figures {
		if width == 2 {
			w.values = binary.LittleEndian.AppendUint16(w.values, uint16(v))
		} else {
			w.values = binary.LittleEndian.AppendUint32(w.values, v)
		}
	}
}

// Bytes returns the file. It returns an error if Open would refuse it.
func (w *Writer) Bytes() ([]byte, error) {
	if len(w.Foods) > math.MaxUint16 || len(w.Docs) > math.MaxUint16 {
		return nil, fmt.Errorf("layout: %d foods, %d docs: more than 65535", len(w.Foods), len(w.Docs))
	}
	releaseText := []uint32{w.Text(w.Release)}
	groupTexts := make([]uint32, len(w.Groups))
	for i, g := range w.Groups {
		groupTexts[i] = w.Text(g)
	}
	var ends []uint32
	var heapBytes []byte
	for _, t := range w.texts {
		heapBytes = append(heapBytes, t...)
		ends = append(ends, uint32(len(heapBytes)))
	}

	content := [sections]any{
		release: releaseText, texts: ends, heap: heapBytes, groups: groupTexts,
		foods: w.Foods, columns: w.columns, values: w.values, portions: w.Portions,
		names: w.Names, docs: w.Docs, words: w.Words, postings: w.Postings, family: w.Family,
	}
	out := make([]byte, headerSize)
	copy(out, magic)
	for i, records := range content {
		start := len(out)
		var err error
		if out, err = binary.Append(out, binary.LittleEndian, records); err != nil {
			return nil, fmt.Errorf("layout: %s: %w", sectionNames[i], err)
		}
		at := len(magic) + 8 + i*8
		binary.LittleEndian.PutUint32(out[at:], uint32(start))
		binary.LittleEndian.PutUint32(out[at+4:], uint32((len(out)-start)/recordSize[i]))
	}
	binary.LittleEndian.PutUint32(out[len(magic):], uint32(len(out)))
	Seal(out)
	if _, err := Open(string(out)); err != nil {
		return nil, err
	}
	return out, nil
}

// Seal writes the checksum of a file into it. Tests use it to reach the checks
// behind the checksum.
func Seal(file []byte) {
	if len(file) < len(magic)+8 {
		return
	}
	sum := crc32.Checksum(file[len(magic)+8:], castagnoli)
	binary.LittleEndian.PutUint32(file[len(magic)+4:], sum)
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)
